#include "engine/fluid/saturation.h"

#include <algorithm>
#include <cmath>

#include "engine/fluid/known_range.h"

namespace pumpwright::fluid {
namespace {

// Table 34 of the release.
constexpr double n1 = 0.11670521452767e4;
constexpr double n2 = -0.72421316703206e6;
constexpr double n3 = -0.17073846940092e2;
constexpr double n4 = 0.12020824702470e5;
constexpr double n5 = -0.32325550322333e7;
constexpr double n6 = 0.14915108613530e2;
constexpr double n7 = -0.48232657361591e4;
constexpr double n8 = 0.40511340542057e6;
constexpr double n9 = -0.23855557567849;
constexpr double n10 = 0.65017534844798e3;

constexpr double pressure_unit_pa = 1e6;
// Equation 30 at the ends of its range, rounded outward by less than `saturated_within`.
constexpr AbsolutePressure lowest_pressure{pascals(611.212677)};
constexpr AbsolutePressure highest_pressure{pascals(22.06400002e6)};

double fourth_power(double x) {
  return x * x * x * x;
}

}  // namespace

AbsolutePressure water_saturation_pressure(Temperature t) {
  require_temperature(t, water_lowest(), water_critical_point(), "boiling water");
  const double t_k = kelvin_of(t);
  const double theta = t_k + n9 / (t_k - n10);
  const double a = (theta + n1) * theta + n2;
  const double b = (n3 * theta + n4) * theta + n5;
  const double c = (n6 * theta + n7) * theta + n8;
  return {pascals(pressure_unit_pa * fourth_power(2 * c / (-b + std::sqrt(b * b - 4 * a * c))))};
}

Temperature water_saturation_temperature(AbsolutePressure p) {
  require_pressure(p, lowest_pressure, highest_pressure, "boiling water");
  const double beta = std::sqrt(std::sqrt(p.value.value() / pressure_unit_pa));
  const double e = (beta + n3) * beta + n6;
  const double f = (n1 * beta + n4) * beta + n7;
  const double g = (n2 * beta + n5) * beta + n8;
  const double d = 2 * g / (-f - std::sqrt(f * f - 4 * e * g));
  const double sum = n10 + d;
  const double t_k = (sum - std::sqrt(sum * sum - 4 * (n9 + n10 * d))) / 2;
  return kelvin(std::clamp(t_k, kelvin_of(water_lowest()), kelvin_of(water_critical_point())));
}

}  // namespace pumpwright::fluid

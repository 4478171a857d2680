#include "engine/seal/asperity_contact.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

constexpr double first_lambda = -6;
constexpr double last_lambda = 12;
constexpr double nearest_lambda = -5;  // closer than this there is no room to speak of
constexpr int intervals = 720;
constexpr double step = (last_lambda - first_lambda) / intervals;

double normal_density(double x) {
  return std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
}

// Integral of (s - lambda)^power phi(s) above lambda with s = lambda + v², which leaves no root at the lower
// end; composite Simpson over v.
double integral(double power, double lambda) {
  const double far = std::sqrt(std::max(0.0, -lambda) + 9.0);
  constexpr int pieces = 400;
  const double width = far / pieces;
  const auto f = [&](double v) { return 2 * std::pow(v, 2 * power + 1) * normal_density(lambda + v * v); };
  double sum = f(0) + f(far);
  for (int i = 1; i < pieces; ++i)
    sum += f(i * width) * (i % 2 == 1 ? 4 : 2);
  return sum * width / 3;
}

// ln F and its derivative -3/2 F_(1/2) / F at each node.
struct LogTable {
  std::array<double, intervals + 1> log;
  std::array<double, intervals + 1> slope;
};

LogTable tabulated() {
  LogTable t{};
  for (std::size_t i = 0; i <= intervals; ++i) {
    const double lambda = first_lambda + step * static_cast<double>(i);
    const double f = integral(1.5, lambda);
    t.log[i] = std::log(f);
    t.slope[i] = -1.5 * integral(0.5, lambda) / f;
  }
  return t;
}

// Cubic Hermite on ln F.
WithSlope load_integral(double lambda) {
  if (lambda >= last_lambda) return {0, 0};
  static const LogTable table = tabulated();
  const double x = (std::max(lambda, first_lambda) - first_lambda) / step;
  const auto i = std::min(static_cast<std::size_t>(x), static_cast<std::size_t>(intervals - 1));
  const double t = x - static_cast<double>(i);
  const double a = table.log[i];
  const double b = table.log[i + 1];
  const double da = table.slope[i] * step;
  const double db = table.slope[i + 1] * step;
  const double c2 = 3 * (b - a) - 2 * da - db;
  const double c3 = 2 * (a - b) + da + db;
  const double f = std::exp(a + t * (da + t * (c2 + t * c3)));
  return {f, f * (da + t * (2 * c2 + t * 3 * c3)) / step};
}

}  // namespace

void require_valid(const Asperities& asperities) {
  require_between(asperities.roughness.value(), 1e-8, 5e-6, "asperities/roughness",
                  "a combined roughness from 0.01 µm to 5 µm");
  require_between(asperities.modulus.value(), 1e8, 1e12, "asperities/modulus",
                  "an elastic modulus from 0.1 GPa to 1000 GPa");
  require_between(asperities.crowding, 0.001, 1, "asperities/crowding", "a number from 0.001 to 1");
  require_between(asperities.sharpness, 1e-6, 0.1, "asperities/sharpness", "a ratio from 0.000001 to 0.1");
  require_between(asperities.friction, 0, 1, "asperities/friction", "a coefficient of friction from 0 to 1");
}

double summit_load_integral(double lambda) {
  return load_integral(lambda).value;
}

WithSlope contact_pressure(const Asperities& asperities, double separation_m) {
  const double sigma_m = asperities.roughness.value();
  const double scale_pa =
      4.0 / 3.0 * asperities.modulus.value() * asperities.crowding * std::sqrt(asperities.sharpness);
  const WithSlope f = load_integral(separation_m / sigma_m);
  return {scale_pa * f.value, scale_pa * f.slope / sigma_m};
}

WithSlope mean_gap(double roughness_m, double separation_m) {
  if (roughness_m <= 0) return {separation_m, 1};
  const double lambda = separation_m / roughness_m;
  if (lambda > 8) return {separation_m, 1};
  if (lambda < nearest_lambda) return {mean_gap(roughness_m, nearest_lambda * roughness_m).value, 0};
  const double below = 0.5 * std::erfc(-lambda / std::numbers::sqrt2);
  return {roughness_m * (lambda * below + normal_density(lambda)), below};
}

}  // namespace pumpwright::seal

#include "engine/fluid/supercooled_water.h"

#include <algorithm>
#include <cmath>

#include "engine/fluid/known_range.h"
#include "engine/fluid/saturation.h"

namespace pumpwright::fluid {
namespace {

constexpr double lowest_k = 200;  // far below what any mixture here stays liquid at

double log_of_equation_10(double t_k) {
  const double log_t = std::log(t_k);
  return 54.842763 - 6763.22 / t_k - 4.210 * log_t + 0.000367 * t_k +
         std::tanh(0.0415 * (t_k - 218.8)) * (53.878 - 1331.22 / t_k - 9.44523 * log_t + 0.014025 * t_k);
}

double log_supercooled_pressure(double t_k) {
  static const double step_at_joint =
      std::log(water_saturation_pressure(water_lowest()).value.value()) - log_of_equation_10(celsius_zero_k);
  return log_of_equation_10(t_k) + step_at_joint;
}

// ln p against 1/T is nearly straight, so the secant of the whole range, taken again at its own result,
// converges in a few turns.
double supercooled_temperature_k(double log_p) {
  double a = 1 / lowest_k;
  double b = 1 / celsius_zero_k;
  double miss_a = log_supercooled_pressure(lowest_k) - log_p;
  double miss_b = log_supercooled_pressure(celsius_zero_k) - log_p;
  for (int turn = 0; turn < 30 && miss_a != miss_b && a != b; ++turn) {
    const double next = b - miss_b * (b - a) / (miss_b - miss_a);
    a = b;
    miss_a = miss_b;
    b = std::clamp(next, 1 / celsius_zero_k, 1 / lowest_k);
    miss_b = log_supercooled_pressure(1 / b) - log_p;
  }
  return 1 / b;
}

}  // namespace

AbsolutePressure liquid_water_saturation_pressure(Temperature t) {
  if (kelvin_of(t) >= kelvin_of(water_lowest())) return water_saturation_pressure(t);
  require_temperature(t, kelvin(lowest_k), water_critical_point(), "boiling water");
  return {pascals(std::exp(log_supercooled_pressure(kelvin_of(t))))};
}

Temperature liquid_water_saturation_temperature(AbsolutePressure p) {
  const AbsolutePressure joint = water_saturation_pressure(water_lowest());
  if (p.value >= joint.value) return water_saturation_temperature(p);
  require_pressure(p, liquid_water_saturation_pressure(kelvin(lowest_k)), joint, "boiling water");
  return kelvin(supercooled_temperature_k(std::log(p.value.value())));
}

}  // namespace pumpwright::fluid

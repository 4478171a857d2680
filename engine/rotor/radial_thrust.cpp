#include "engine/rotor/radial_thrust.h"

#include <algorithm>
#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {
namespace {

constexpr double standard_gravity_m_s2 = 9.80665;

void require_valid(const RadialFactor& k) {
  require_between(k.least, 0, 2, "operating_point/radial_factor/least", "a factor from 0 to 2");
  require_between(k.most, k.least, 2, "operating_point/radial_factor/most",
                  "a factor from the least one to 2");
  require_between(k.expected, k.least, k.most, "operating_point/radial_factor/expected",
                  "a factor from the least to the most");
}

void require_valid(const ThrustCase& pump) {
  require_valid(pump.factor);
  require_between(pump.head.value(), 0, 3000, "operating_point/head", "a head from 0 to 3000 m");
  require_between(pump.density.value(), 200, 3000, "operating_point/density",
                  "a density from 200 kg/m³ to 3000 kg/m³");
  require_between(pump.outlet_diameter.value(), 0.01, 3, "impeller/outlet_diameter",
                  "a diameter from 10 mm to 3 m");
  require_between(pump.outlet_width.value(), 0.001, 1, "impeller/outlet_width", "a width from 1 mm to 1 m");
}

}  // namespace

RadialFactor single_volute_factor(double flow_ratio) {
  require_between(flow_ratio, 0, 1.2, "operating_point/flow_ratio",
                  "flow over flow at best efficiency, 0 to 1.2");
  const auto fall = [flow_ratio](double exponent) { return std::fabs(1 - std::pow(flow_ratio, exponent)); };
  return {0.15 * fall(0.7), std::max(0.36 * fall(2), 0.03), std::max(0.38 * fall(3.3), 0.06),
          "single volute: K at no flow 0.15 to 0.38 (a pump handbook, read), expected 0.36 (Stepanoff, "
          "remembered), falling to best efficiency as 1 - (flow ratio)^x, x 0.7 to 3.3 (Hydraulic "
          "Institute, remembered)"};
}

RadialThrust radial_thrust(const ThrustCase& pump) {
  require_valid(pump);
  const double force_n = pump.density.value() * standard_gravity_m_s2 * pump.head.value() *
                         pump.outlet_diameter.value() * pump.outlet_width.value();
  return {newtons(pump.factor.least * force_n), newtons(pump.factor.expected * force_n),
          newtons(pump.factor.most * force_n)};
}

}  // namespace pumpwright::rotor

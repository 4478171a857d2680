#include "engine/rotor/balance_tolerance.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {
namespace {

constexpr std::array grades{metres_per_second(0.4e-3),  metres_per_second(1e-3),   metres_per_second(2.5e-3),
                            metres_per_second(6.3e-3),  metres_per_second(16e-3),  metres_per_second(40e-3),
                            metres_per_second(100e-3),  metres_per_second(250e-3), metres_per_second(630e-3),
                            metres_per_second(1600e-3), metres_per_second(4000e-3)};

constexpr double rounding = 1e-9;
constexpr double share_least = 0.3;
constexpr double share_most_between = 0.7;
constexpr double share_most_outboard = 1.3;

}  // namespace

std::span<const Velocity> listed_grades() {
  return grades;
}

bool is_listed(Velocity grade) {
  return std::any_of(grades.begin(), grades.end(), [&](Velocity listed) {
    return std::abs(grade.value() - listed.value()) <= rounding * listed.value();
  });
}

Length permissible_eccentricity(const RotorToBalance& rotor) {
  const double lowest = grades.front().value() * (1 - rounding);
  const double highest = grades.back().value() * (1 + rounding);
  require_between(rotor.grade.value(), lowest, highest, "rotor/grade", "a grade from G 0.4 to G 4000");
  const double rpm = rotor.service.value() * 30 / pi;
  require_between(rpm, 1 - rounding, 1e5 * (1 + rounding), "rotor/speed", "a speed from 1 to 100000 rpm");
  return metres(rotor.grade.value() / rotor.service.value());
}

Unbalance permissible_unbalance(const RotorToBalance& rotor) {
  require_that(rotor.mass.value() > 0 && rotor.mass.value() <= 1e5, rotor.mass.value(), "rotor/mass",
               "a mass over 0 up to 100000 kg");
  return rotor.mass * permissible_eccentricity(rotor);
}

BearingTolerance tolerance_at_bearings(Unbalance permissible, const BearingPlanes& planes) {
  const double span_m = std::abs((planes.b - planes.a).value());
  require_that(std::isfinite(span_m) && span_m > 0, span_m, "rotor/bearings", "two planes that lie apart");
  const double share_a = std::abs((planes.b - planes.centre_of_mass).value()) / span_m;
  const double share_b = std::abs((planes.centre_of_mass - planes.a).value()) / span_m;
  BearingTolerance t;
  t.mass = share_a + share_b > 1 + rounding ? MassStands::outboard : MassStands::between_bearings;
  const double most = t.mass == MassStands::outboard ? share_most_outboard : share_most_between;
  const double kept_a = std::clamp(share_a, share_least, most);
  const double kept_b = std::clamp(share_b, share_least, most);
  t.a = kept_a * permissible;
  t.b = kept_b * permissible;
  t.bounded = kept_a != share_a || kept_b != share_b;
  t.how = t.bounded ? HowKnown::remembered : HowKnown::read;
  return t;
}

}  // namespace pumpwright::rotor

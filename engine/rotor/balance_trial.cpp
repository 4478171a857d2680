#include "engine/rotor/balance_trial.h"

#include <cmath>
#include <limits>

#include "engine/assembly/input_check.h"

namespace pumpwright::rotor {
namespace {

constexpr double gravity_m_s2 = 9.80665;  // 3rd CGPM, 1901

void require_positive(double value, const std::string& field, const std::string& expected) {
  require_that(std::isfinite(value) && value > 0, value, field, expected);
}

}  // namespace

Mass trial_mass(Mass rotor_mass, std::size_t planes, Length radius, Speed balancing) {
  require_positive(rotor_mass.value(), "rotor/mass", "a mass over 0");
  require_positive(static_cast<double>(planes), "planes", "one plane or more");
  require_positive(radius.value(), "planes/radius", "a radius over 0");
  require_positive(balancing.value(), "rotor/balancing_speed", "a speed over 0");
  const double load_n = rotor_mass.value() * gravity_m_s2 / static_cast<double>(planes);
  return kilograms(trial_force_share * load_n / (radius.value() * balancing.value() * balancing.value()));
}

Force centrifugal_force(Unbalance unbalance, Speed speed) {
  return newtons(unbalance.value() * speed.value() * speed.value());
}

bool VibrationChange::enough() const {
  return of_amplitude >= trial_change_share || of_phase >= trial_change_angle;
}

VibrationChange change_between(const VibrationVector& before, const VibrationVector& after) {
  VibrationChange change;
  const double grown = std::abs(after.amplitude - before.amplitude);
  if (grown > 0)
    change.of_amplitude =
        before.amplitude > 0 ? grown / before.amplitude : std::numeric_limits<double>::infinity();
  change.of_phase = radians(std::abs(std::remainder((after.phase - before.phase).value(), 2 * pi)));
  const AngleSense any;
  change.vector = std::abs(complex_of(after, any) - complex_of(before, any));
  return change;
}

}  // namespace pumpwright::rotor

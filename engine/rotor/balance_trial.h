// Trial weights: how heavy one should be before the first run, what pulls at it, and whether it told
// anything.
//
// Common practice, no standard behind it: a trial weight whose centrifugal force is about a tenth of the
// static load of the plane it sits in; and a trial that moves the vibration by 30 % of its amplitude or 30°
// (read in a public article on balancing by vectors). A tenth is a start, not a limit: near a
// critical speed less is plenty, and a weight that flies off is a bullet.
#pragma once

#include <cstddef>

#include "engine/rotor/balance_angles.h"

namespace pumpwright::rotor {

inline constexpr double trial_force_share = 0.1;
inline constexpr double trial_change_share = 0.3;
inline constexpr Angle trial_change_angle = degrees(30);

// Mass at `radius` whose force m r ω² at `balancing` speed is a tenth of the weight `rotor_mass`/`planes`.
// Throws BadInput "rotor/mass", "planes", "planes/radius", "rotor/balancing_speed" unless all are over 0.
Mass trial_mass(Mass rotor_mass, std::size_t planes, Length radius, Speed balancing);

// m r ω²: what the fastening of a weight has to hold.
Force centrifugal_force(Unbalance unbalance, Speed speed);

// How the vibration moved from one run to another.
struct VibrationChange {
  double of_amplitude = 0;  // |new amplitude - old| / old; infinite when the old one is 0
  Angle of_phase;           // [rad] 0 … π, the smaller way round
  double vector = 0;        // |new - old|, in the unit of the amplitude
  // Moved by 30 % or 30°: the trial weight says something.
  bool enough() const;
};
VibrationChange change_between(const VibrationVector& before, const VibrationVector& after);

}  // namespace pumpwright::rotor

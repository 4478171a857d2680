// Unbalance and once-per-turn vibration as vectors, and the one place where angles change their sense.
//
// Balancing goes wrong most often over which way an angle is counted. Whoever writes a file says two things:
// which way the degrees on the rotor rise (with its rotation or against it) and whether a phase is a lag or a
// lead. Everything behind this header sees one sense only: places rising against rotation, phase as lag. In
// it a weight moved on by so many degrees moves the vibration on by as many, so that vibration = influence ·
// unbalance holds with one complex number for each plane and sensor.
#pragma once

#include <complex>

#include "engine/quantity/quantity.h"

namespace pumpwright::rotor {

// Mass times the distance of its centre from the axis [kg·m]. 1 g·mm is 1e-6 kg·m.
using Unbalance = units::quantity<units::multiply_typeof_helper<si::mass, si::length>::type>;
constexpr Unbalance kilogram_metres(double v) {
  return Unbalance::from_value(v);
}

enum class PlacesRise { against_rotation, with_rotation };

// lag   how far the rotor has turned on from the mark's passing the pick-up until the vibration peaks
// lead  how far it still has to turn from the peak until the mark passes
enum class PhaseIs { lag, lead };

struct AngleSense {
  PlacesRise places = PlacesRise::against_rotation;
  PhaseIs phase = PhaseIs::lag;
};

// So much too heavy (or so much fitted) at a place on the rotor, in degrees from the keyway as written.
struct UnbalanceVector {
  Unbalance amount;  // [kg·m], >= 0
  Angle place;       // [rad]
};

// The part of a vibration that turns with the rotor. The amplitude is in the SI unit of whatever the sensor
// reads (m, m/s), by whatever measure (peak, peak to peak, r.m.s.): the same in all runs.
struct VibrationVector {
  double amplitude = 0;  // >= 0
  Angle phase;           // [rad]
};

// In the common sense; the way back gives places and phases of 0 … 2π.
std::complex<double> complex_of(const UnbalanceVector& v, const AngleSense& sense);  // [kg·m]
std::complex<double> complex_of(const VibrationVector& v, const AngleSense& sense);
UnbalanceVector unbalance_of(std::complex<double> kg_m, const AngleSense& sense);
VibrationVector vibration_of(std::complex<double> v, const AngleSense& sense);

// The place opposite, 0 … 2π: where to take out what would be added at `place`.
Angle opposite(Angle place);

}  // namespace pumpwright::rotor

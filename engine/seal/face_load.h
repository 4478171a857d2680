// What presses the faces together and what that costs: face pressure, friction, heat, PV and the circulation
// that carries the heat away, by the hand formulas of the trade. `film.h` solves the same faces in detail.
#pragma once

#include "engine/fluid/liquid.h"
#include "engine/quantity/quantity.h"
#include "engine/seal/face_geometry.h"

namespace pumpwright::seal {

struct FaceLoadCase {
  Faces faces;
  Pressure across;               // sealed pressure less that on the other side, 0 to 50 MPa
  Force spring;                  // at the length it has, 0 to 100 kN
  double gradient_factor = 0.5;  // K, 0 to 1: 0.5 for flat parallel faces and a liquid that does not flash;
                                 // in practice 0.5 to 0.8 (API 682, 2nd ed., annex, read)
  double friction = 0.07;        // f, 0 to 1: 0.07 is the annex' one value whatever the pair (remembered)
  Speed speed;                   // 0 to 10 000 rad/s
};

struct FaceLoad {
  Force closing;              // B A dp + spring
  Force opening;              // K A dp
  Force net;                  // closing - opening; negative: the faces are pushed apart
  Pressure spring_pressure;   // spring / A
  Pressure closing_pressure;  // closing / A, before the film's share is taken off
  Pressure net_pressure;      // net / A = dp (B - K) + spring / A, the annex' total face pressure: what the
                              // solid faces carry. Friction, heat and `pv` use this one, never below 0.
  Velocity sliding;           // at the mean diameter
  Torque running;             // P A f Dm / 2 (annex, remembered; follows from friction times radius)
  Torque starting_low;        // 3 x running ...
  Torque starting_high;       // ... to 5 x running (annex, remembered)
  Power heat;                 // running torque times speed
  PressureVelocity pv;        // net_pressure x sliding: what published limits of a pair are about
  PressureVelocity pv_of_across;  // dp x sliding, since some tables mean that one: never compare across
};

// Throws BadInput "faces/...", "pressure across", "spring force", "gradient factor", "friction", "speed".
FaceLoad face_load(const FaceLoadCase& seal);

// Flow that takes up `heat` with a temperature rise of `rise`: H / (rho cp dT), of the liquid at `t` and `p`.
// heat >= 0; rise over 0 to 200 K: usual at most 5.6 K for a chamber (a recommendation of API 682, read
// second hand). BadInput "heat", "rise", or the liquid's own.
VolumeFlow circulation_for(Power heat, TemperatureDifference rise, const fluid::Liquid& liquid, Temperature t,
                           AbsolutePressure p);

}  // namespace pumpwright::seal

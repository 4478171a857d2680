// Face sweeps: how far a face is out of square to the turning axis, and which way.
//
// A face reading moves with the shaft's end float as well as with the face. One indicator gives the tilt only
// while the shaft is held axially towards a stated side. Two indicators 180° apart, read at the same instant
// with the same sign, separate the two: half their difference is tilt, half their sum is float (and
// even-order form of the face). Nothing is ever averaged over the two, which would cancel the tilt.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/metrology/sweep.h"

namespace pumpwright {

enum class HeldToward { not_held, driver, impeller };

struct FaceGeometry {
  Length radius;         // [m] at which the plunger swept, > 0
  Length seat_diameter;  // [m] over which squareness is stated, > 0
};

struct FaceTilt {
  Angle tilt;                      // [rad] atan(first harmonic / radius)
  std::optional<Angle> tilt_u;     // [rad] standard uncertainty
  std::optional<Angle> direction;  // [rad] place of the face that stands out most; absent like a high spot
  Length squareness;               // [m] over the seat diameter: seat_diameter · tan(tilt), peak to valley
  std::optional<Length> squareness_u;  // [m]
};

struct FaceResult {
  SweepResult sweep;  // one indicator: its readings; two: half their differences
  HeldToward held = HeldToward::not_held;
  std::optional<FaceTilt> tilt;     // absent for one indicator on a shaft that was not held
  std::optional<Length> end_float;  // [m] two indicators: largest less smallest half sum over the sweep
  std::vector<Length> float_at;     // [m] two indicators: half sum at each reading, less the first
};

// One indicator. setup.axis must be face. Throws BadInput as evaluate_sweep, and for a radius or seat
// diameter that is not positive.
FaceResult evaluate_face_sweep(std::span<const SweepReading> readings, const SweepSetup& setup,
                               HeldToward held, const FaceGeometry& geometry,
                               const Instrument* instrument = nullptr);

// Two indicators at one instant; `angle` belongs to the first, the second stands 180° on. Their zeros may
// differ.
struct TwoIndicatorReading {
  Angle angle;
  Length first;
  Length opposite;
};

// As above for two alike indicators. The sweep inside the result is of half differences: its TIR is what the
// face's tilt and odd-order form alone would read, and the instrument's share in it is smaller by √2.
FaceResult evaluate_face_sweep(std::span<const TwoIndicatorReading> readings, const SweepSetup& setup,
                               const FaceGeometry& geometry, const Instrument* instrument = nullptr);

}  // namespace pumpwright

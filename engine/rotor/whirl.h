// The speeds at which the rotor whirls by itself: natural frequencies at a running speed, and the critical
// speeds at which one of them meets the running speed. Undamped.
#pragma once

#include <vector>

#include "engine/rotor/rotor_matrices.h"

namespace pumpwright::rotor {

struct WhirlMode {
  Speed frequency;      // of the whirl, > 0
  bool forward = true;  // the way the shaft turns; false: against it
};

// The lowest `count` modes of each sense while the shaft turns at `running` (0 or more), ascending by
// frequency. At rest forward and backward are equal. Solved as the symmetric definite pencil
// [[-S G, M], [M, 0]] x = (1/w) [[K, 0], [0, M]] x, which has real roots only.
// Accuracy: 1e-8 of what the elements give (mesh.h says what those leave).
// Throws BadInput "speed" below 0 or over 20 000 rad/s, "count" outside 1 to 20.
std::vector<WhirlMode> whirl_modes(const RotorMatrices& m, Speed running, int count);

struct CriticalSpeeds {
  std::vector<Speed> forward;   // ascending; unbalance excites these
  std::vector<Speed> backward;  // unbalance of a rotor in round bearings does not excite these
};

// Up to `count` of each: K x = w² (M - G) x forward, K x = w² (M + G) x backward. There are fewer forward
// ones than unknowns: a disk whose polar inertia exceeds its diametral one is held straight by its own spin.
CriticalSpeeds critical_speeds(const RotorMatrices& m, int count);

}  // namespace pumpwright::rotor

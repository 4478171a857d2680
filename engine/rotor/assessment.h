// Whether a rotor may run: what bends it at the seal's faces, what its bearings carry and how long they last,
// how far its speed stays from a critical one.
//
// The radial thrust is a range (radial_thrust.h), so everything that follows from it is one too, and a limit
// inside the range is unproven.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/metrology/decision.h"
#include "engine/rotor/bearing_life.h"
#include "engine/rotor/radial_thrust.h"
#include "engine/rotor/response.h"
#include "engine/rotor/unbalance.h"
#include "engine/rotor/whirl.h"

namespace pumpwright::rotor {

// What is to be kept, each with where it comes from. `usual_limits` has those a file may leave out.
struct RotorLimits {
  Length deflection;         // at the seal's faces, over 0
  double separation = 0;     // distance of the speed from a forward critical speed / speed, 0 to 1
  std::optional<Time> life;  // of both bearings together, L10; judged only when given
  std::string deflection_source, separation_source, life_source;
};
RotorLimits usual_limits();

struct RotorCase {
  Rotor rotor;
  Length seal_face;  // place of the seal's faces
  ThrustCase pump;
  Unbalance unbalance;
  Speed speed;  // over 0, up to 3000 rad/s
  std::array<RatedBearing, 2> bearings;
  std::optional<Force> axial_load;  // of the whole rotor, on the bearing that locates it
  std::size_t locating = 1;         // which bearing that is
  RotorLimits limits;
};

template <class Q>
struct Range {
  Q least{};
  Q expected{};
  Q most{};
};

// Why a verdict is what it is; `code` gives the stable words.
enum class RotorReason {
  inside_at_most,          // even the most the thrust may be keeps to the limit: pass
  outside_at_least,        // even the least does not: fail
  thrust_straddles_limit,  // the limit lies inside the thrust's range: unproven
  far_enough,              // pass
  too_near,                // fail
  stiffness_not_given,     // a rigid bearing gives the highest critical speed there can be: unproven
  axial_load_not_given,    // it would pass without thrust: unproven
  beyond_life_formula,     // a bearing may carry over half its rating: unproven
};
std::string code(RotorReason reason);

struct RotorVerdict {
  std::string what;  // "deflection", "separation", "life"
  Outcome outcome = Outcome::unproven;
  RotorReason reason = RotorReason::thrust_straddles_limit;
};

struct BearingFinding {
  Range<Force> radial;      // load across the shaft
  Force axial;              // 0 on the one that does not locate
  Range<Force> equivalent;  // P of ISO 281
  Range<Time> life;         // least at the most load
};

// The line bent by the expected thrust and by the weight, each in its own plane, and the most all may do in
// one.
struct BentPoint {
  Length at;
  Length thrust;
  Length weight;
  Length most;
};

struct RotorAssessment {
  RadialThrust thrust;
  Force unbalance_force;
  std::vector<BentPoint> line;
  Range<Length> seal_deflection, impeller_deflection;
  Range<Angle> seal_tilt, impeller_tilt;
  std::array<BearingFinding, 2> bearings;
  Range<Time> system_life;
  std::vector<WhirlMode> modes;  // at the running speed
  CriticalSpeeds critical;
  std::optional<double> separation;  // of the nearest forward critical speed; empty when there is none
  // Stiffness of each bearing, the same for both, above which the first forward critical speed stays clear of
  // the speed; only where a bearing's stiffness is not given and rigid ones would do.
  std::optional<SpringRate> stiffness_needed;
  std::vector<RotorVerdict> verdicts;
};

// Deflections: least where thrust and weight oppose each other and nothing is out of balance, expected where
// they stand at right angles, most where thrust, weight and unbalance point one way. Throws BadInput as its
// parts, and "seal_face", "speed", "limits/...".
RotorAssessment assess(const RotorCase& pump);

}  // namespace pumpwright::rotor

// The spring of a seal head: how hard it pushes at the length it really has, and how well that is known.
#pragma once

#include <optional>

#include "engine/metrology/measured.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::seal {

// A straight-line spring through one known point. Build it with one of the functions below.
struct Spring {
  Measured<Length> known_length;       // > 0
  Measured<Force> known_force;         // at known_length, >= 0
  Measured<SpringRate> rate;           // > 0
  std::optional<Length> solid_length;  // shorter than this the coils touch; > 0 and below the length without
                                       // load
};

// No force at `free_length`.
Spring spring_of_free_length(const Measured<Length>& free_length, const Measured<SpringRate>& rate);

// As a sheet states it: `force` at the nominal working length.
Spring spring_of_nominal(const Measured<Length>& length, const Measured<Force>& force,
                         const Measured<SpringRate>& rate);

// As a bench finds it: free length, and the force at one shorter length; the rate is force / travel, its
// uncertainty by first-order propagation (JCGM 100:2008, 5.1), taken as uncorrelated with the known point.
// BadInput "spring/length" unless it is shorter than the free length.
Spring spring_of_two_points(const Measured<Length>& free_length, const Measured<Length>& length,
                            const Measured<Force>& force);

enum class SpringState {
  loaded,
  slack,       // longer than it is without load: pushes with nothing
  coil_bound,  // its coils touch: the force is no longer the spring's, only "at least"
};

struct SpringForce {
  SpringState state = SpringState::loaded;
  Measured<Force> force;      // u: the standard uncertainty before a slack spring's force is cut off at 0
  Force low, high;            // force -/+ 2 u (about 95 %), not below 0
  Length compression;         // from the length without load; negative when slack
  bool may_be_slack = false;  // no force within the range
  bool may_be_coil_bound = false;  // the solid length lies within 2 u of the length
};

// F = F_known + k (L_known - L); u by first-order propagation (JCGM 100:2008, 5.1), inputs uncorrelated.
// Throws BadInput "spring/..." or "spring length" when a condition above does not hold or an uncertainty is
// negative.
SpringForce force_at(const Spring& spring, const Measured<Length>& length);

// Length at which it pushes with nothing: L_known + F_known / k.
Length length_without_load(const Spring& spring);

}  // namespace pumpwright::seal

// Putting a correction where the rotor lets one put it: at vanes, bolts or marked places, in weights that lie
// in the drawer.
//
// Places are angles as written on the rotor, whichever way they rise; a split looks the same mirrored. The
// arithmetic is exact: parallelogram of forces.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "engine/rotor/balance_angles.h"

namespace pumpwright::rotor {

inline constexpr std::size_t places_max = 100;
inline constexpr std::size_t weights_max = 20;
inline constexpr std::size_t pieces_max = 4;

struct PlaceLoad {
  Angle place;                  // [rad] 0 … 2π
  Unbalance amount;             // [kg·m] to go there, or that goes there
  std::vector<Mass> weights{};  // which of the available weights; empty before they are chosen
};

// `wanted` as parts at the two permitted places on either side of it, which add up to it; one part alone when
// it falls on a place (within 1e-9 rad). Throws BadInput "places" when there are none or more than
// places_max, two are one place, or the two neighbours stand 180° or more apart (no two weights there add up
// to it).
std::vector<PlaceLoad> split_between_places(const UnbalanceVector& wanted, std::span<const Angle> places);

struct WeightChoice {
  std::vector<PlaceLoad> loads;  // places with nothing fitted are left out
  UnbalanceVector left;          // wanted less fitted
};

// The weights that come nearest to `wanted`: at most `most_pieces` at each of the two neighbouring places (at
// the one place when only one is permitted), each weight as often as needed. Among equals the fewest pieces.
// Every combination is tried. Throws BadInput "weights" when none is given, more than weights_max, or one is
// not over 0; "most_per_place" outside 1 … pieces_max; "radius" unless over 0; and as above.
WeightChoice choose_weights(const UnbalanceVector& wanted, std::span<const Angle> places, Length radius,
                            std::span<const Mass> available, std::size_t most_pieces);

}  // namespace pumpwright::rotor

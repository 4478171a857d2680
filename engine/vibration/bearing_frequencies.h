// How often a damaged place of a rolling bearing is rolled over, from its geometry and the shaft's speed.
//
// With n elements of diameter d on the pitch diameter D, contact angle φ, outer ring at rest, rolling without
// sliding (R. B. Randall and J. Antoni, Rolling element bearing diagnostics: a tutorial, Mech. Syst. Signal
// Process. 25, 2011, remembered):
//   cage            f/2 · (1 - d/D cos φ)
//   outer race    n f/2 · (1 - d/D cos φ)
//   inner race    n f/2 · (1 + d/D cos φ)
//   element       D f/(2d) · (1 - (d/D cos φ)²), its own turning; a damaged place meets both races: twice
//   that
// Sliding makes the real ones lower by one or two per cent (common practice, no source).
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::vibration {

struct BearingGeometry {
  int elements = 0;  // 3 to 200
  Length element_diameter{};
  Length pitch_diameter{};  // over the element's
  Angle contact{};          // 0 to 80°
};

struct BearingFrequencies {
  Frequency cage, outer_race, inner_race, element;
};

// BadInput "elements", "element_diameter", "pitch_diameter", "contact", "speed".
BearingFrequencies bearing_frequencies(const BearingGeometry& geometry, Speed speed);

}  // namespace pumpwright::vibration

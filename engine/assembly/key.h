// Parallel keys: which key a shaft takes, how deep its keyseat and keyway go, and whether a key of this
// length lets hub and sleeve seat.
//
// Inch keys follow ASME B17.1-1967 (size by shaft diameter, upper end of each step included), metric keys DIN
// 6885-1 and ISO 773. Choose by the *nominal* shaft diameter. The NEMA keyseat dimension R is the S of the
// depth control values.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/assembly/how_known.h"
#include "engine/quantity/quantity.h"

namespace pumpwright {

enum class KeySystem { inch_square, inch_rectangular, metric };

struct KeySection {
  KeySystem system = KeySystem::inch_square;
  Length over;         // shaft diameters over this ...
  Length to;           // ... up to and including this
  Length width;        // W, b
  Length height;       // H, h
  Length shaft_depth;  // inch: H/2 at the side of the seat; metric: t1 from the shaft's surface line
  Length hub_depth;    // inch: H/2, before the 0.005 in allowance; metric: t2 from the bore's surface line
  HowKnown how = HowKnown::read;
  std::string source;
};

// Key for a nominal shaft diameter: inch over 5/16 in to 3 1/4 in (rectangular: over 7/16 in), metric over 6
// mm to 110 mm. BadInput "shaft diameter" outside, stating the range held.
KeySection key_for_shaft(Length nominal_diameter, KeySystem system);

// Every size held of a system, in order of diameter.
std::vector<KeySection> all_keys(KeySystem system);

// What a depth micrometer or caliper reads across the shaft and the bore.
struct DepthControl {
  Length chord_height;  // Y: from the top of the shaft to the chord of the key's width; 0 for metric
  Length seat_bottom_to_far_side;    // S (NEMA: R); metric d - t1
  Length keyway_bottom_to_far_side;  // T; metric d + t2
};

// Inch: Y = (D - sqrt(D^2 - W^2)) / 2, S = D - Y - H/2, T = D - Y + H/2 + 0.005 in (ASME B17.1; the formula
// reproduces its printed S and T within 0.0005 in). Metric: d - t1 and d + t2. `diameter` > width, else
// BadInput.
DepthControl depth_control(const KeySection& key, Length diameter);

// Signed tolerances on width and depth; those not held are empty.
struct Deviation {
  Length lower;
  Length upper;
};
struct KeyTolerances {
  std::optional<Deviation> key_width;
  std::optional<Deviation> seat_width;    // in the shaft; metric: N9, the normal fit
  std::optional<Deviation> keyway_width;  // in the hub; metric: JS9, the normal fit
  std::optional<Deviation> seat_depth;    // inch: on S; metric: on t1
  std::optional<Deviation> keyway_depth;  // inch: on T; metric: on t2
  HowKnown how = HowKnown::read;
  std::string source;
};
KeyTolerances key_tolerances(const KeySection& key);

enum class KeyEnds {
  square,  // both ends flat: the whole length carries
  round,   // both ends round (form A): width of length is lost
};

// Where things lie along the shaft, each measured from the free end of the shaft inwards [m], >= 0.
// The hub (impeller) is held by a nut or washer on its outer face; its inner face pushes the sleeve against a
// shoulder. Without a sleeve, `sleeve_face` is empty and the shoulder the hub seats on stands at the hub's
// inner face.
struct KeyPlace {
  Length key_length;
  Length seat_start;      // outer end of the full-depth keyseat; 0 when open at the shaft end
  Length seat_end;        // inner end
  Length hub_outer_face;  // where the washer seats
  Length hub_keyway_end;  // inner end of the hub's keyway: the hub's inner face for a through keyway
  std::optional<Length> sleeve_face;  // outer end of the sleeve
  Length sleeve_slot;  // depth of the slot for the key in the sleeve's end; 0 when there is none
  Length end_gap;      // room the key must leave at both ends, >= 0
};

enum class KeyLengthFault {
  longer_than_seat,  // the key does not lie down in the keyseat
  holds_sleeve_off,  // the inner end reaches the bottom of the sleeve's slot, or its face, before hub and
                     // sleeve are home
  holds_hub_off,     // no sleeve there, or a blind keyway: the inner end reaches the end of the hub's keyway
  holds_washer_off,  // the outer end stands past the hub: the washer clamps the key instead of the hub
  engages_too_little,  // less of the hub's keyway is filled than asked for
};
const char* word_for(KeyLengthFault fault);

struct KeyLengthCheck {
  std::vector<KeyLengthFault> faults;   // empty: the key fits
  Length engagement_min;                // length in the hub's keyway, at the worst place the key can slide to
  std::optional<Length> shortest_good;  // range of lengths that would fit; empty when none does
  std::optional<Length> longest_good;
};

// `wanted_engagement` is the part of the hub's keyway to be filled, over 0 to 1. Common practice asks for a
// key that fills the hub's keyway; no published figure stands behind the part, so the caller names it. Throws
// BadInput for lengths that are not finite, negative, or out of order.
KeyLengthCheck check_key_length(const KeyPlace& place, double wanted_engagement);

// Stresses for information; not judged here.
struct KeyLoad {
  Force tangential;        // 2 T / d
  Pressure shear;          // F / (W L)
  Pressure bearing_shaft;  // F over the side standing in the shaft
  Pressure bearing_hub;    // F over the side standing in the hub
};

// Torque carried over `engaged` length on shaft diameter `diameter`; L = engaged, less the width for round
// ends. The side in the shaft is taken as the seat depth, that in the hub as height - seat depth. Torque >=
// 0; the carrying length must be > 0.
KeyLoad key_load(const KeySection& key, Length diameter, Length engaged, KeyEnds ends, Torque torque);

}  // namespace pumpwright

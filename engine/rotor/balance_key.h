// What a key does to the balance of a shaft and a hub that were balanced apart.
//
// Under the half-key convention (ISO 21940-32, formerly ISO 8821) shaft and hub are each balanced with the
// half of a key that fills their own keyway. Put together with one key they stay balanced only if that key
// fills both keyways exactly. Where keyseat and hub keyway differ in length, a key of one length leaves a
// seat empty, or stands proud beside the hub. The figure is the first moment of what is really there less
// what each part was balanced with:
//     U = ρ w [h_s r_s (L_key - L_seat) + h_h r_h (L_key - L_hub)]
// for half keys, with the depths h and the radii r of the centres of the key's lower (shaft) and upper (hub)
// part. Rectangular parts; the round of the shaft between them is neglected (below 2 % for keys of the
// standard proportions). The convention's scope was read (ISO 21940-32:2012, abstract); the formula is plain
// statics. For a key small against the shaft the length that is neutral goes to (L_seat + L_hub)/2, the
// trade's rule (read: a public article on couplings).
#pragma once

#include <optional>

#include "engine/assembly/key.h"
#include "engine/rotor/balance_angles.h"

namespace pumpwright::rotor {

// What a part had in its keyway while it was balanced.
enum class BalancedWith { half_key, full_key, no_key };

struct KeyFitted {
  KeySection section;
  Length shaft_diameter;  // > the key's width
  Length key_length;      // all lengths of the full section, >= 0, at most 2 m
  Length seat_length;     // of the keyseat in the shaft
  Length hub_length;      // of the keyway in the hub
  Density density;        // of the key, 500 to 25000 kg/m³
  BalancedWith shaft = BalancedWith::half_key;
  BalancedWith hub = BalancedWith::half_key;
};

struct KeyUnbalance {
  Unbalance amount;         // >= 0
  bool towards_key = true;  // heavy on the key's side; false: light there
  // The key length that leaves none. Absent for a shaft balanced with its full key: that goes with any
  // length.
  std::optional<Length> neutral_length;
};

// The key is taken to lie in the seat along its whole length and under the whole hub as far as it reaches.
// Throws BadInput "key/..." for values outside the ranges above, and "key/hub" for a hub balanced with a full
// key (one of the two only, and it is the shaft).
KeyUnbalance unbalance_of_key(const KeyFitted& key);

}  // namespace pumpwright::rotor

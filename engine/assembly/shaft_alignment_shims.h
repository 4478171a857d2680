// Shims: which of the thicknesses in the drawer make up a pack, and which foot is soft.
//
// Every combination of at most so many shims is tried; the nearest wins, among equals the one with the fewest
// shims (a pack of many thin ones is a spring). Three or four is the habit of the trade for a pack.
//
// Soft foot: all bolts tight, one is loosened at a time, an indicator on that foot shows how far it springs
// up. Up to 0.002 in is let pass (habit of the trade; read in a public training article on soft foot). The
// foot that springs most is shimmed first by what it rose, then all four are read again: one foot changes the
// others.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright::alignment {

inline constexpr std::size_t stock_max = 20;
inline constexpr std::size_t shims_per_pack_max = 6;

struct ShimPack {
  std::vector<Length> shims;  // thickest first; empty: no shim
  Length thickness;           // of all
  Length left;                // wanted less thickness
};

// The pack nearest to `wanted` (>= 0, up to 0.1 m) of at most `most` shims, each thickness as often as
// needed. Throws BadInput "shims/stock" when empty, more than stock_max or not all over 0, "shims/most"
// outside 1 … shims_per_pack_max, "shims/wanted".
ShimPack nearest_pack(Length wanted, std::span<const Length> stock, std::size_t most);

inline constexpr Length soft_foot_limit = metres(50.8e-6);  // 0.002 in

// As seen from above with the coupling at the front.
enum class Foot { front_left, front_right, back_left, back_right };
const char* word_for(Foot foot);  // "front left"

struct SoftFoot {
  std::vector<Foot> soft;  // over the limit, softest first
  // Shim for the softest foot, as it rose; absent when none is soft.
  std::optional<Length> shim;
  // Both feet of one diagonal over the limit: the machine rocks on the other two.
  bool rocks = false;
};

// `rises` in the order of Foot. Throws BadInput "soft_foot" for a rise that is negative or not finite.
SoftFoot soft_foot_of(const std::array<Length, 4>& rises, Length limit = soft_foot_limit);

}  // namespace pumpwright::alignment

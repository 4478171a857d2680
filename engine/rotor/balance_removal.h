// Taking metal out instead of putting weight on: how deep to drill, how deep to grind.
//
// Volumes and their first moments about the axis are exact: a drilled hole is a cylinder with the cone of the
// drill's point below it, a ground pad is a ring sector of even depth on a shroud's outer face. What they
// take out is ρ times the moment. The direction of the sum is the middle of the hole or pad.
//
// Metal taken out does not come back, and a shroud ground or drilled too deep is scrap or worse: the depth
// permitted is the caller's to state.
#pragma once

#include <cstddef>
#include <optional>

#include "engine/rotor/balance_angles.h"

namespace pumpwright::rotor {

enum class DrillDirection {
  axial,   // into a face, along the axis: the hole's centre keeps its radius
  radial,  // into the rim, towards the axis: the centre moves inwards with the depth
};

struct Drill {
  DrillDirection direction = DrillDirection::axial;
  Length radius;               // axial: of the hole's centre; radial: of the surface drilled into, > 0
  Length diameter;             // of the drill, > 0
  Angle point = degrees(118);  // included angle of its point, 60 to 180 degrees
  Density density;             // of the metal, 500 to 25000 kg/m³
  Length most_depth;           // to the tip of the point; > 0, radial: below the radius
};

struct Hole {
  Length to_tip;            // deepest point below the surface
  Length to_full_diameter;  // where the full diameter ends; 0 when only the point went in
  Mass taken_out;
};

// What a hole that deep takes out [kg·m]. Throws BadInput "drill/..." for values outside the ranges above.
Unbalance drilled_out(const Drill& drill, Length to_tip);

// The hole that takes out `wanted`; nothing when the permitted depth does not reach.
std::optional<Hole> hole_for(const Drill& drill, Unbalance wanted);

struct Holes {
  std::size_t count = 1;
  Hole each;
};

inline constexpr std::size_t holes_max = 12;

// As few equal holes as reach, `spacing` apart and centred on the place, at most holes_max; nothing when they
// do not. spacing 0: one hole only. BadInput "drill/spacing" outside 0 to 30 degrees.
std::optional<Holes> holes_for(const Drill& drill, Unbalance wanted, Angle spacing);

struct Grind {
  Length radius;      // of the middle of the pad, > half the width
  Length length;      // along the arc at that radius, > 0, up to half a turn
  Length width;       // towards the axis, > 0
  Density density;    // 500 to 25000 kg/m³
  Length most_depth;  // along the axis, > 0
};

struct GroundPad {
  Length depth;
  Mass taken_out;
  bool reaches = true;  // false: the permitted depth does not do, `depth` is what it would have to be
};

// BadInput "grind/..." for values outside the ranges above.
GroundPad pad_for(const Grind& grind, Unbalance wanted);

}  // namespace pumpwright::rotor

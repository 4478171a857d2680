// How an indicator sat when a sweep was taken: what turned, which way the needle moves, what the written
// angle means.
//
// The same column of numbers means opposite things under different set-ups. Everything that changes a sign or
// an angle is stated here and nowhere else; the rest of the engine sees only surface deviation against place.
#pragma once

#include <optional>
#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright {

// Where the base sits and what the plunger touches.
//   shaft    base on the standing part, plunger on the turning shaft (or on what turns with it): the high
//   spot is a
//            place on the shaft, in angles from the keyway
//   housing  base on the turning shaft, plunger sweeping a standing register, face or bore: the high spot is
//   a place on
//            the housing, in angles from its fixed mark; the reading is relative to the shaft's axis
//   unknown  not stated: angles are taken as given and no direction on the machine may be claimed from them
enum class Mount { unknown, shaft, housing };

enum class Surface { outside, inside };  // radial sweeps: a shaft or spigot, or a bore. A face is neither.
enum class Axis { radial, face };
enum class PlungerIn { plus, minus };  // what the needle shows when the plunger is pushed in

// What the written angle is.
//   place   the place under the plunger
//   turned  how far was turned since the first place, in the direction stated below
enum class WrittenAngle { place, turned };

// With `turned`: what moved. With mount housing the indicator is carried by the shaft, so both mean the same.
enum class Moved { shaft, indicator };

// How a turned amount becomes a place. Angles marked on a part rise with the shaft's rotation or against it.
// With a fixed plunger, turning the shaft in its rotation brings decreasing angles under it (marks that rise
// with rotation); a plunger that travels in rotation meets increasing ones.
struct Turning {
  Moved moved = Moved::shaft;
  bool in_rotation = true;               // turned in the shaft's direction of rotation, not against it
  bool marks_rise_with_rotation = true;  // of the part whose places are named
  Angle first_place = radians(0);        // the place under the plunger before turning
};

// A lever (test) indicator whose arm stands at an angle to the surface reads too much: true = reading ·
// cos(stylus) / cos(reads_true_at). Both 0 … 60°; some levers are made to read true at 10, 15 or 20°.
struct Lever {
  Angle stylus = radians(0);
  Angle reads_true_at = radians(0);
};

// Sag of the bracket that carries an indicator round a level shaft (mount housing only). Measured by sweeping
// a rigid, true surface of the same kind with the same set-up: zero at the top, `at_bottom` is what the
// indicator then shows at the bottom, in its own sign (for an outside surface and plunger-in plus it is
// negative). The sag at place θ is at_bottom · (1 - cos(θ - top))/2, and is taken out of the readings.
struct BarSag {
  Length at_bottom{};
  Angle top = radians(0);
  Length u = metres(0);  // standard uncertainty of at_bottom, >= 0
};

// A stretch without surface (keyway, port), in places, from `from` to `to` in rising angle. Readings strictly
// inside are left out of everything.
struct Gap {
  Angle from;
  Angle to;
};

struct SweepSetup {
  Axis axis = Axis::radial;
  Mount mount = Mount::unknown;
  Surface surface = Surface::outside;
  PlungerIn plunger_in = PlungerIn::plus;
  WrittenAngle written = WrittenAngle::place;
  Turning turning{};  // used with WrittenAngle::turned, which needs a stated mount
  Lever lever{};
  std::optional<BarSag> sag{};
  std::vector<Gap> gaps{};
};

}  // namespace pumpwright

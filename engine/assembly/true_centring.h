// Centring a bracket live: which way to tap it and how far, what the sweep will then read, and what the dial
// shows on the way.
//
// A pure offset e reads a TIR of 2e. Moved by d towards the centre, the TIR falls by 2d. The dial that stands
// at a clock position p sees the part d cos(ψ - p) of a move towards ψ.
//
// Own mechanics; the factor of two is the definition of TIR and eccentricity (engine/metrology/sweep.h).
#pragma once

#include "engine/assembly/true_frame.h"

namespace pumpwright::true_running {

struct Centring {
  Offset<Standing> move{};       // to make
  Length distance{};             // its size
  ClockPosition toward{};        // which way to tap; meaningless when the distance is 0
  Tir now{}, after{};            // of the offset, before and after
  bool stopped_by_room = false;  // the bolt holes or the register let it go no further
};

// `offset`: from the turning axis to the bore's or register's centre, as swept. `room`: how far the bracket
// can go from where it sits, >= 0. Throws BadInput for a room that is negative or an offset that is not
// finite.
Centring centre(const Offset<Standing>& offset, Length room);

// While it is tapped over with the dial left standing at one place: the surface there has moved by `change`
// since the sweep, positive away from the axis.
struct Tapping {
  Length moved;    // along the line of the move
  Length left;     // still to go; negative when it went too far
  Length stop_at;  // what `change` will then be
};

// Throws BadInput when the dial stands more than 60° off the line of the move (it would see less than half of
// it), or nothing is to be moved.
Tapping tapping(const Centring& centring, ClockPosition dial, Length change);

}  // namespace pumpwright::true_running

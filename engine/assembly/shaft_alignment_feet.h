// What to do at the feet: how far each foot of the moved machine has to rise or be pushed so that both shafts
// run in one line when they are warm.
//
// A machine's shaft rises with its feet: growth at the front and at the back feet is a straight line along
// it. Growth of a foot's support is α · height · rise (read: a public article on thermal growth; 26 in
// × 5.9e-6 per °F × 250 °F ≈ 0.038 in, thermoinspect.ca) or the shop's own figure. What is aligned is the
// warm line: measured line plus growth of the moved machine less growth of the fixed one. Moves at the feet
// take it away; what can not be done (a foot without shims left to take out, a bolt without play left) is
// done as far as it goes.
#pragma once

#include <optional>

#include "engine/assembly/shaft_alignment.h"

namespace pumpwright::alignment {

// α · height · rise [m]. Height 0 to 10 m, expansion 0 to 1e-4 per K, rise -200 to 1000 K; BadInput
// "growth/..." outside.
Length thermal_growth(Expansion expansion, Length height, TemperatureDifference rise);

// x of the two pairs of feet, and how far the shaft rises there when warm. front: the pair nearer to the
// coupling.
struct Feet {
  Length front;
  Length back;
  Length front_growth{};
  Length back_growth{};
};

// The line when both machines are warm. `fixed` may be absent: it does not grow. Throws BadInput "feet" when
// front and back are one place.
ShaftLine warm_line(const ShaftLine& measured, Length coupling, const Feet& moved,
                    const std::optional<Feet>& fixed);

// One pair of feet of the moved machine. Positive: raise, push to the right.
struct FootMove {
  Length raise;
  Length push;
  std::optional<Length> raise_u;  // standard uncertainty of both
  std::optional<Length> push_u;
};

struct FeetMoves {
  FootMove front;
  FootMove back;
};

FeetMoves moves_for(const ShaftLine& warm, Length coupling, const Feet& moved);

// The warm line after the feet moved: raises and pushes as they were really done.
ShaftLine line_after(const ShaftLine& warm, Length coupling, const Feet& moved, const FootMove& front,
                     const FootMove& back);

// How far a pair of feet can go.
struct FootRoom {
  std::optional<Length> shims_under{};  // taken out at most; absent: not known, no bound
  std::optional<Length> bolt_play{};    // to either side; absent: no bound
};

struct BoundMove {
  FootMove move;            // as far as it goes
  bool base_bound = false;  // would have to go lower than without any shim
  bool bolt_bound = false;  // would have to go further than the bolts' play
};

// BadInput "feet/shims_under", "feet/bolt_play" when negative.
BoundMove within_room(const FootMove& wanted, const FootRoom& room);

}  // namespace pumpwright::alignment

// Net positive suction head: what a plant offers, what a pump asks for, and the margin between.
//
// NPSHA = (surface pressure - vapour pressure)/(ρ g) + level over the datum - losses of the suction line
// (read in handbooks; checked against their worked examples). NPSH3 is where the head has dropped by 3 %
// (read).
#pragma once

#include <span>

#include "engine/fluid/liquid.h"
#include "engine/hydraulics/performance_test.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

struct SuctionSide {
  AbsolutePressure surface;  // on the liquid it draws from
  Length level;              // of that surface over the pump's datum; negative: suction lift
  Length loss;               // friction head of the suction line at the flow in question, >= 0
  Temperature temperature;
};

// [m]. BadInput for a loss below 0, a level beyond ±1000 m, or the liquid's own.
Length npsh_available(const SuctionSide& side, const fluid::Liquid& liquid);

// One point of a suppression run at constant flow and speed.
struct SuppressionPoint {
  Length npsh;  // at the pump's datum, over 0
  Length head;  // over 0
};

// Standard uncertainties of a run: `npsh` is common to all points, `head` differs from point to point.
struct SuppressionDoubt {
  Length npsh, head;
};

struct Npsh3 {
  Figure npsh_m;
  double head_full_m = 0;                     // mean head of the points taken as undisturbed
  double next_below_m = 0, next_above_m = 0;  // NPSH of the points between which it was interpolated
};

// The head is taken as undisturbed at the `plateau` points of highest NPSH (2 to all but one); from there
// downward the first place where the head, straight between points, is 3 % less. BadInput "points" for fewer
// than 3 or equal NPSH, "plateau", and "head" when the run never reaches 3 % or is below it already next to
// the plateau's own points.
Npsh3 npsh3_of(std::span<const SuppressionPoint> run, std::size_t plateau, const SuppressionDoubt& doubt);

// Suction head at another speed: NPSH (n2/n1)^x, x = 2 (the standard allows 1.3 to 2, remembered).
Length npsh_at_speed(Length npsh, double speed_ratio, double exponent = 2);

}  // namespace pumpwright::hydraulics

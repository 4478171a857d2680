#include "engine/assembly/shaft_alignment_feet.h"

#include <algorithm>
#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::alignment {
namespace {

// A straight line through its values at the two pairs of feet, as value at the coupling and slope.
struct Straight {
  double at_coupling_m = 0;
  double slope = 0;
};

Straight through(const Feet& feet, Length coupling, double front_m, double back_m) {
  const double span_m = (feet.back - feet.front).value();
  require_that(std::isfinite(span_m) && span_m != 0, span_m, "feet", "front and back feet that stand apart");
  const double slope = (back_m - front_m) / span_m;
  return {front_m + slope * (coupling - feet.front).value(), slope};
}

FootMove move_at(const ShaftLine& warm, Length from_coupling) {
  return {-warm.up_at(from_coupling), -warm.right_at(from_coupling), warm.up_u_at(from_coupling),
          warm.right_u_at(from_coupling)};
}

void require_room(const std::optional<Length>& room, const std::string& field) {
  if (room)
    require_that(std::isfinite(room->value()) && room->value() >= 0, room->value(), field,
                 "a length of 0 or more");
}

}  // namespace

Length thermal_growth(Expansion expansion, Length height, TemperatureDifference rise) {
  require_between(expansion.value(), 0, 1e-4, "growth/expansion", "an expansion from 0 to 100 um/(m.K)");
  require_between(height.value(), 0, 10, "growth/height", "a height from 0 to 10 m");
  require_between(rise.value(), -200, 1000, "growth/rise", "a rise from -200 to 1000 K");
  return metres(expansion.value() * height.value() * rise.value());
}

ShaftLine warm_line(const ShaftLine& measured, Length coupling, const Feet& moved,
                    const std::optional<Feet>& fixed) {
  const Straight own = through(moved, coupling, moved.front_growth.value(), moved.back_growth.value());
  Straight other;
  if (fixed) other = through(*fixed, coupling, fixed->front_growth.value(), fixed->back_growth.value());
  ShaftLine warm = measured;
  warm.up_m += own.at_coupling_m - other.at_coupling_m;
  warm.up_slope += own.slope - other.slope;
  return warm;
}

FeetMoves moves_for(const ShaftLine& warm, Length coupling, const Feet& moved) {
  (void)through(moved, coupling, 0, 0);
  return {move_at(warm, moved.front - coupling), move_at(warm, moved.back - coupling)};
}

ShaftLine line_after(const ShaftLine& warm, Length coupling, const Feet& moved, const FootMove& front,
                     const FootMove& back) {
  const Straight up = through(moved, coupling, front.raise.value(), back.raise.value());
  const Straight right = through(moved, coupling, front.push.value(), back.push.value());
  ShaftLine after = warm;
  after.up_m += up.at_coupling_m;
  after.up_slope += up.slope;
  after.right_m += right.at_coupling_m;
  after.right_slope += right.slope;
  return after;
}

BoundMove within_room(const FootMove& wanted, const FootRoom& room) {
  require_room(room.shims_under, "feet/shims_under");
  require_room(room.bolt_play, "feet/bolt_play");
  BoundMove bound{wanted};
  if (room.shims_under && wanted.raise < -*room.shims_under) {
    bound.base_bound = true;
    bound.move.raise = -*room.shims_under;
  }
  if (room.bolt_play && std::abs(wanted.push.value()) > room.bolt_play->value()) {
    bound.bolt_bound = true;
    bound.move.push = metres(std::copysign(room.bolt_play->value(), wanted.push.value()));
  }
  return bound;
}

}  // namespace pumpwright::alignment

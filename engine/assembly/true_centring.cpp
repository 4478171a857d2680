#include "engine/assembly/true_centring.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::true_running {

Centring centre(const Offset<Standing>& offset, Length room) {
  require_between(room.value(), 0, 0.1, "room", "a length from 0 to 100 mm");
  const double size_m = offset.size().value();
  require_between(size_m, 0, 0.1, "offset", "an offset within 100 mm");
  Centring c;
  c.now = {metres(2 * size_m)};
  c.distance = metres(std::min(size_m, room.value()));
  c.stopped_by_room = room.value() < size_m;
  c.after = {metres(2 * (size_m - c.distance.value()))};
  if (size_m > 0) c.move = Offset<Standing>::from_si(-offset.si() / size_m * c.distance.value());
  c.toward = {wrapped(radians(offset.direction().angle.value() + pi))};
  return c;
}

Tapping tapping(const Centring& centring, ClockPosition dial, Length change) {
  require_that(centring.distance.value() > 0, centring.distance.value(), "move", "a move to watch");
  const double seen = std::cos(centring.toward.angle.value() - dial.angle.value());
  if (std::abs(seen) < 0.5 - 1e-12)
    throw BadInput({"dial", "", fmt::format("{:.0f}°", degrees_of(dial.angle)),
                    fmt::format("a dial within 60° of the line of the move, at {:.0f}° or opposite",
                                degrees_of(centring.toward.angle))});
  const Length moved = change / seen;
  return {moved, centring.distance - moved, centring.distance * seen};
}

}  // namespace pumpwright::true_running

// What is known of one pump that went out: how long it ran, and how that ended. Everything in this folder
// starts from such lives.
//
// A pump that is still running, and one that was replaced for another reason, has at least lasted this long:
// its life is cut short by our looking, not by its failing (right-censored). "Replaced" is kept apart because
// it competes with returning: such a pump can not come back any more.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright::reliability {

enum class Ending {
  returned,  // came back: what is counted
  running,   // still out when the list was made
  replaced,  // taken out of service for a reason that says nothing about the build
};

struct Life {
  Time time;  // since it went out, running or calendar time, one kind for all; within `lifetimes`
  Ending ending = Ending::running;
};

// Every time above zero that a clock can show, and none whose powers or ratios leave the range of a double.
struct TimeRange {
  Time shortest;
  Time longest;
};
constexpr TimeRange lifetimes{seconds(1e-30), seconds(1e30)};

// Throws BadInput ("lives" or "lives/3/time", numbers from 0) unless there is at least one life and all times
// lie within `lifetimes`.
void require_valid(std::span<const Life> lives);

std::size_t count_of(std::span<const Life> lives, Ending ending);
Time total_time(std::span<const Life> lives);

// One distinct time at which something ended.
struct EndingTime {
  Time time;
  std::size_t at_risk = 0;  // pumps that lasted at least to this time
  std::size_t returned = 0;
  std::size_t replaced = 0;
  std::size_t running = 0;
};

// All distinct times, ascending. The lives must be valid.
std::vector<EndingTime> ending_times(std::span<const Life> lives);

}  // namespace pumpwright::reliability

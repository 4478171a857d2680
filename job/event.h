// What can happen to a job. The record is the list of these in the order they were accepted; state is a fold
// over them.
#pragma once

#include <string>
#include <variant>

#include "job/reading.h"

namespace pumpwright::job {

struct ReadingTaken {
  Reading reading;
};

struct StepDone {
  std::string step;
  UtcTime time;
  std::string actor;
};

struct HoldReleased {
  std::string step;
  UtcTime time;
  std::string actor;
};

// Lets a job be released although a check did not pass. Never changes the verdict.
struct DeviationAccepted {
  std::string check;
  std::string reason;
  UtcTime time;
  std::string actor;
};

using Event = std::variant<ReadingTaken, StepDone, HoldReleased, DeviationAccepted>;

}  // namespace pumpwright::job

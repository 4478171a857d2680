// The state of a job: what stands after all its events.
#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "job/event.h"
#include "job/plan.h"

namespace pumpwright::job {

struct JobState {
  // Readings that stand, by check, in the order taken. More than one when two people read the same check and
  // neither replaced the other's: both are judged and shown.
  std::map<std::string, std::vector<Reading>> standing;
  std::vector<Reading> replaced;  // kept for the record
  std::map<std::string, StepDone> steps_done;
  std::map<std::string, HoldReleased> holds_released;
  std::map<std::string, DeviationAccepted> deviations;  // by check
};

// Folds the events of a job over its plan. Throws BadInput (place: "/events/N") when an event names a check,
// step or reading that does not exist, repeats a reading's id, carries a reading of the wrong kind for its
// check, replaces a reading of another check or one already replaced, or when a hold is released by the
// person who did the step.
JobState fold(const Plan& plan, std::span<const Event> events);

}  // namespace pumpwright::job

// The state of a job: what stands after all its events.
#pragma once

#include <map>
#include <set>
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
  // Ids of those that stood until a later sweep of the check named what was moved before it (SweepRemedy).
  std::set<std::string> before_remedy;
  std::map<std::string, StepDone> steps_done;
  std::map<std::string, HoldReleased> holds_released;
  std::map<std::string, DeviationAccepted> deviations;  // by check
};

// The fold, one event at a time.
class JobFold {
 public:
  // Throws BadInput when the event names a check, step or reading that does not exist, repeats a reading's
  // id, carries a reading of the wrong kind for its check, replaces a reading of another check, or when a
  // hold is released by the person who did the step; the state then stays as it was. A reading that replaces
  // one which somebody else has replaced meanwhile stands beside the other: nobody's reading is lost.
  void apply(const Plan& plan, const Event& event);

  const JobState& state() const { return state_; }
  JobState take() { return std::move(state_); }

 private:
  JobState state_;
  std::map<std::string, std::string> check_of_;  // of every reading by id
};

// Folds the events of a job over its plan. Throws BadInput (place: "/events/N") as JobFold does.
JobState fold(const Plan& plan, std::span<const Event> events);

}  // namespace pumpwright::job

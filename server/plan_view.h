// Steps and checks of a plan as the page shows them.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/job_log.h"
#include "job/judgement.h"
#include "job/snapshot.h"

namespace pumpwright::server {

// What a plan is looked at with; `logged` is null for a plan nobody has begun.
struct PlanInView {
  const job::Snapshot& snapshot;
  const job::JobState& state;
  const job::Judgement& judgement;
  const job::LoggedJob* logged = nullptr;
};

nlohmann::json stages_view(const job::Plan& plan);
nlohmann::json steps_view(const PlanInView& in);
nlohmann::json checks_view(const PlanInView& in);

// {"id", "title"} of the first step that is not done or waits for its hold; null when none does.
nlohmann::json next_step_view(const job::Plan& plan, const job::JobState& state);

}  // namespace pumpwright::server

// Which part is out, as the page shows it: the readings of both chains, what was found, what puts it right, a
// picture.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/job_state.h"
#include "job/judgement.h"
#include "job/snapshot.h"

namespace pumpwright::server {

// {"rotating", "standing": null when nothing of the chain was swept, "left_out", "assumed"}.
nlohmann::json true_view(const job::Snapshot& snapshot, const job::JobState& state,
                         const job::Judgement& judgement);

}  // namespace pumpwright::server

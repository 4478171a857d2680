// One check's verdict as the page shows it.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/job_state.h"
#include "job/judgement.h"

namespace pumpwright::server {

// `deviation`: null when none was accepted.
nlohmann::json finding_view(const job::Check& check, const job::CheckFinding& finding,
                            const job::JobState& state);

}  // namespace pumpwright::server

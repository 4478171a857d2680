// The map of suction pressure against temperature as the page draws it.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/job_state.h"
#include "job/tried_conditions.h"

namespace pumpwright::server {

// {"map": null or …, "missing"}: without a film there is no map. About a tenth of a second.
nlohmann::json seal_map_view(const job::SealQuestion& question, const job::JobState& state);

}  // namespace pumpwright::server

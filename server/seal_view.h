// A seal's service sheet as the page shows it: what decides, the numbers behind it, the film along the face.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/seal_finding.h"

namespace pumpwright::server {

// What could not be computed is null; `missing` then says why.
nlohmann::json seal_view(const job::SealQuestion& question, const job::JobState& state);

}  // namespace pumpwright::server

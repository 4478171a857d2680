// The half-section as numbers the page draws, and the places on it.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/make_up.h"

namespace pumpwright::server {

nlohmann::json section_view(const job::MakeUp& make_up);

}  // namespace pumpwright::server

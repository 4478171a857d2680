// What is remembered of a pump, as the page shows it: its earlier builds here, what came of them, what was
// said to change, and how its readings moved from build to build.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "shop/shop.h"

namespace pumpwright::server {

// {"builds": [newest first], "readings": [checks of the present plan that were read before]}.
nlohmann::json past_view(const shop::JobPicture& picture, const shop::PumpPast& past);

}  // namespace pumpwright::server

// What the shop's builds say of returns, as the page shows it.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "shop/returns_asked.h"

namespace pumpwright::server {

// {"builds", "returned", …, "sentences", "curves", "groups", …}; "builds": 0 and nothing else worked out when
// no build is left.
nlohmann::json returns_view(const std::vector<shop::BuildLife>& lives, const shop::ReturnsAsked& asked);

}  // namespace pumpwright::server

// The shop's own things as the page shows them: people, instruments, limits, words, and who changed what.
#pragma once

#include <cstdint>
#include <span>

#include <nlohmann/json_fwd.hpp>

#include "job/check.h"
#include "shop/shop_state.h"

namespace pumpwright::server {

// `held_back`: checks whose deciding limit waits for the shop to stand behind it. `now_ms` says which
// instruments are in date.
nlohmann::json shop_view(const shop::ShopState& shop, std::span<const job::Check> held_back,
                         std::int64_t now_ms);

}  // namespace pumpwright::server

// The fold over the shop's own stream.
#pragma once

#include "shop/shop_state.h"
#include "store/event.h"

namespace pumpwright::shop {

inline constexpr const char* shop_stream = "shop";

// Applies one event. Throws BadInput when it does not fit, and leaves the state as it was.
void apply(ShopState& state, const store::StoredEvent& event);

}  // namespace pumpwright::shop

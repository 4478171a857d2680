// Turns what the store says to an append into what callers of the shop understand.
#pragma once

#include <string>

#include "store/event_log.h"

namespace pumpwright::shop {

// The append as stored. Throws BadInput for a malformed envelope or a key in use, Refused::conflict when the
// stream moved meanwhile.
store::Appended appended_or_throw(store::EventLog& events, const store::Append& append);
store::Appended appended_or_throw(store::AppendResult result);

// 2026-11-20T08:12:00Z of a moment in milliseconds.
std::string second_text(std::int64_t now_ms);

}  // namespace pumpwright::shop

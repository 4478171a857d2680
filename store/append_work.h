// An append inside a write: looks up what is there already, refuses what does not fit, stores the rest and
// changes the index. Internal to this folder.
#pragma once

#include <cstdint>
#include <optional>

#include "store/event_log.h"
#include "store/group_commit.h"

namespace pumpwright::store {

// Bounds that need no database.
std::optional<Malformed> malformed_part(const Append& append);

// Writes nothing unless it gives Appended.
AppendResult append_in(WriteScope& scope, const Append& append, std::int64_t now_ms);

}  // namespace pumpwright::store

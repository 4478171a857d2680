// The time stamp of an accepted event as text.
#pragma once

#include <cstdint>
#include <string>

namespace pumpwright::store {

// Unix time in milliseconds as "2026-11-25T14:02:00.250Z". Years 0 to 9999.
std::string utc_text(std::int64_t unix_ms);

}  // namespace pumpwright::store

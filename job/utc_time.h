// Moments in a record. Written as ISO 8601 in UTC to the second; never read from the machine's clock in this
// layer.
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/quantity/quantity.h"

namespace pumpwright::job {

// Seconds since 1970-01-01T00:00:00Z, without leap seconds.
struct UtcTime {
  std::int64_t seconds = 0;
  auto operator<=>(const UtcTime&) const = default;  // NOLINT(modernize-use-nullptr): false of clang-tidy 14
};

// Reads `2026-11-20T08:12:00Z` (years 1970 to 2199, real calendar days only). Throws BadInput naming `field`.
UtcTime parse_utc_time(std::string_view text, const std::string& field);

// Reads `2027-03-31` as the last second of that day, so that "due 2027-03-31" is still in date all that day.
UtcTime parse_end_of_day(std::string_view text, const std::string& field);

// Reads `2026-03-31` as the first second of that day.
UtcTime parse_start_of_day(std::string_view text, const std::string& field);

std::string format_utc_time(UtcTime time);  // 2026-11-20T08:12:00Z
std::string format_utc_day(UtcTime time);   // 2026-11-20

// later − earlier [s]; negative when `later` is the earlier one.
Time elapsed(UtcTime earlier, UtcTime later);

}  // namespace pumpwright::job

#include "store/utc_text.h"

#include <chrono>

#include <fmt/format.h>

namespace pumpwright::store {

std::string utc_text(std::int64_t unix_ms) {
  const std::chrono::sys_time<std::chrono::milliseconds> time{std::chrono::milliseconds(unix_ms)};
  const auto day = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::year_month_day date{day};
  const std::chrono::hh_mm_ss clock{time - day};
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     clock.hours().count(), clock.minutes().count(), clock.seconds().count(),
                     clock.subseconds().count());
}

}  // namespace pumpwright::store

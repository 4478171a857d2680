#include "job/utc_time.h"

#include <array>
#include <chrono>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

constexpr std::int64_t day_s = 86400;

// Digits of `text` at [from, from+count) as a number, or -1 when one of them is no digit.
int digits_at(std::string_view text, std::size_t from, std::size_t count) {
  int value = 0;
  for (std::size_t i = from; i < from + count; ++i) {
    if (i >= text.size() || text[i] < '0' || text[i] > '9') return -1;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

// Midnight at the start of the day written in the first ten characters, or -1.
std::int64_t start_of_day_s(std::string_view text) {
  const int year = digits_at(text, 0, 4);
  const int month = digits_at(text, 5, 2);
  const int day = digits_at(text, 8, 2);
  if (text.size() < 10 || text[4] != '-' || text[7] != '-' || year < 1970 || year > 2199 || month < 0 ||
      day < 0)
    return -1;
  const std::chrono::year_month_day date{std::chrono::year{year},
                                         std::chrono::month{static_cast<unsigned>(month)},
                                         std::chrono::day{static_cast<unsigned>(day)}};
  if (!date.ok()) return -1;
  return std::chrono::sys_days{date}.time_since_epoch().count() * day_s;
}

[[noreturn]] void refuse(std::string_view text, const std::string& field, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = std::string(text), .expected = expected});
}

std::int64_t day_or_refuse(std::string_view text, const std::string& field) {
  const std::int64_t start = text.size() == 10 ? start_of_day_s(text) : -1;
  if (start < 0) refuse(text, field, "a calendar day such as 2026-11-20");
  return start;
}

struct Clock {
  std::int64_t hour, minute, second;
};

Clock clock_of(UtcTime time) {
  const std::int64_t s = time.seconds % day_s;
  return {s / 3600, s / 60 % 60, s % 60};
}

}  // namespace

UtcTime parse_utc_time(std::string_view text, const std::string& field) {
  const std::string expected = "a UTC time such as 2026-11-20T08:12:00Z";
  if (text.size() != 20 || text[10] != 'T' || text[13] != ':' || text[16] != ':' || text[19] != 'Z')
    refuse(text, field, expected);
  const std::int64_t start = start_of_day_s(text.substr(0, 10));
  const std::int64_t hour = digits_at(text, 11, 2);
  const std::int64_t minute = digits_at(text, 14, 2);
  const std::int64_t second = digits_at(text, 17, 2);
  if (start < 0 || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 59)
    refuse(text, field, expected);
  return {start + hour * 3600 + minute * 60 + second};
}

UtcTime parse_end_of_day(std::string_view text, const std::string& field) {
  return {day_or_refuse(text, field) + day_s - 1};
}

UtcTime parse_start_of_day(std::string_view text, const std::string& field) {
  return {day_or_refuse(text, field)};
}

std::string format_utc_day(UtcTime time) {
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{time.seconds / day_s}}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::string format_utc_time(UtcTime time) {
  const Clock c = clock_of(time);
  return fmt::format("{}T{:02}:{:02}:{:02}Z", format_utc_day(time), c.hour, c.minute, c.second);
}

Time elapsed(UtcTime earlier, UtcTime later) {
  return seconds(static_cast<double>(later.seconds - earlier.seconds));
}

}  // namespace pumpwright::job

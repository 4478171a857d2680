#include "job/utc_time.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

TEST(UtcTime, ReadsAndWritesTheSameText) {
  for (const char* text :
       {"1970-01-01T00:00:00Z", "2026-11-20T08:12:59Z", "2024-02-29T23:59:59Z", "2199-12-31T00:00:00Z"})
    EXPECT_EQ(format_utc_time(parse_utc_time(text, "time")), text);
  EXPECT_EQ(parse_utc_time("1970-01-02T00:00:01Z", "time").seconds, 86401);
}

TEST(UtcTime, RefusesWhatIsNoMoment) {
  for (const char* text :
       {"", "2026-11-20", "2026-11-20 08:12:00Z", "2026-11-20T08:12:00", "2026-02-29T00:00:00Z",
        "2026-13-01T00:00:00Z", "2026-11-20T24:00:00Z", "2026-11-20T08:60:00Z", "1969-12-31T23:59:59Z",
        "2026-11-20T08:12:00+01:00", "2026-1a-20T08:12:00Z"})
    EXPECT_THROW(parse_utc_time(text, "time"), BadInput) << text;
}

TEST(UtcTime, ADueDayLastsTillItsEnd) {
  EXPECT_EQ(format_utc_time(parse_end_of_day("2027-03-31", "due")), "2027-03-31T23:59:59Z");
  EXPECT_EQ(format_utc_time(parse_start_of_day("2027-03-31", "calibrated")), "2027-03-31T00:00:00Z");
  EXPECT_THROW(parse_end_of_day("31.3.2027", "due"), BadInput);
}

TEST(UtcTime, ElapsedCountsSecondsForwardAndBack) {
  const UtcTime a = parse_utc_time("2026-11-20T08:00:00Z", "t");
  const UtcTime b = parse_utc_time("2026-11-20T08:15:30Z", "t");
  EXPECT_DOUBLE_EQ(elapsed(a, b).value(), 930);
  EXPECT_DOUBLE_EQ(elapsed(b, a).value(), -930);
}

}  // namespace
}  // namespace pumpwright::job

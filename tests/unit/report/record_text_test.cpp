#include "report/record_text.h"

#include <gtest/gtest.h>

#include "report/amount_text.h"
#include "tests/unit/report/sample_job.h"

namespace pumpwright::report {
namespace {

constexpr auto english = job::Language::english;

TEST(RecordText, ShortensByWholeCharactersAndSaysHowManyAreMissing) {
  EXPECT_EQ(shortened("añadir", 10, english), "añadir");
  EXPECT_EQ(shortened("añadir", 2, english), "añ… (4 more characters in the record)");
}

TEST(RecordText, WritesAMomentToTheMinute) {
  EXPECT_EQ(moment_text(job::parse_utc_time("2026-11-18T08:04:59Z", "t")), "2026-11-18 08:04");
}

TEST(RecordText, ShowsReadingsAsTheHandWroteThem) {
  const auto sample = testing::sample_job();
  EXPECT_EQ(reading_as_written(sample.state.standing.at("sleeve-size").front(), english),
            "at the end 0°: 1.3741 in; at the end 90°: 1.3740 in");
  EXPECT_EQ(reading_as_written(sample.state.standing.at("plate").front(), job::Language::spanish), "sí");
}

TEST(RecordText, ListsAShortSweepAndCountsALongOne) {
  EXPECT_EQ(sweep_as_written(testing::sweep_with(4, 2, "shaft"), english),
            "0°: -1.0 thou; 90°: +1.5 thou; 180°: +1.0 thou; 270°: -1.5 thou");
  EXPECT_EQ(sweep_as_written(testing::sweep_with(3600, 2, "shaft"), english),
            "3600 readings; the record holds them all.");
}

TEST(RecordText, FindsTheLastThingThatHappened) {
  const auto sample = testing::sample_job();
  EXPECT_EQ(moment_text(last_event(sample.state, sample.header.opened)), "2026-11-18 09:30");
  EXPECT_EQ(last_event({}, sample.header.opened), sample.header.opened);
}

TEST(AmountText, ShowsTheInstrumentsDigitsAndTheMetricValueBeside) {
  const Unit& thou = unit_with_symbol("thou", Kind::length);
  const AnyQuantity value(Kind::length, 0.007 * 0.0254);
  EXPECT_EQ(value_text(value, thou, 0.5 * 2.54e-5), "7.0 thou");
  EXPECT_EQ(metric_text(value, thou, 0.5 * 2.54e-5), "0.178 mm");
  EXPECT_EQ(metric_text(value, unit_with_symbol("mm", Kind::length), 1e-5), "");
}

TEST(AmountText, RoundsAnUncertaintyToTwoDigits) {
  EXPECT_EQ(plus_minus_text(7.6e-6, unit_with_symbol("thou", Kind::length)), "± 0.30 thou");
  EXPECT_EQ(plus_minus_text(0.00012, unit_with_symbol("mm", Kind::length)), "± 0.12 mm");
}

TEST(AmountText, WritesBoundsAsTheyWereWritten) {
  job::Limit limit;
  EXPECT_EQ(limit_text(limit), "");
  limit.upper = testing::written("7 thou");
  EXPECT_EQ(limit_text(limit), "≤ 7 thou");
  limit.lower = testing::written("0.5 thou");
  EXPECT_EQ(limit_text(limit), "0.5 thou … 7 thou");
}

}  // namespace
}  // namespace pumpwright::report

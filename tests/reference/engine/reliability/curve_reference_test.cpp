#include <gtest/gtest.h>

#include "engine/reliability/comparison.h"
#include "engine/reliability/return_rate.h"
#include "engine/reliability/survival_curve.h"
#include "live_lives.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

constexpr int digits = 9;
constexpr int whole_days = 2;  // digits that every median has at least
// All steps are compared; one in forty goes into docs/checks.md.
constexpr std::size_t recorded = 40;
constexpr std::size_t first_recorded = 6;

void compare_curve(const std::string& data, const std::string& word, BandTransform transform) {
  const LiveRows live("curve " + data + " " + word);
  const auto curve = survival_curve(live.lives(), transform);
  const auto times = live.numbers("steps");
  const auto surviving = live.numbers("surviving");
  const auto error = live.numbers("error");
  const auto low = live.numbers("low");
  const auto high = live.numbers("high");
  std::size_t step = 0;
  for (const CurveStep& here : curve.steps) {
    if (!here.band) continue;  // R has no band either where nothing survives
    ASSERT_LT(step, times.size());
    EXPECT_EQ(here.time.value(), times[step]);
    EXPECT_NEAR(here.surviving, surviving.at(step), 1e-12);
    EXPECT_NEAR(here.standard_error, error.at(step), 1e-12);
    EXPECT_NEAR(here.band->low, low.at(step), 1e-11);
    EXPECT_NEAR(here.band->high, high.at(step), 1e-11);
    if (step % recorded == first_recorded) {
      const std::string at = data + ", " + word + ": step " + std::to_string(step);
      live.expect(at + ", surviving", "surviving", step, here.surviving, digits);
      live.expect(at + ", standard error", "error", step, here.standard_error, digits);
      live.expect(at + ", band low", "low", step, here.band->low, digits);
      live.expect(at + ", band high", "high", step, here.band->high, digits);
    }
    ++step;
  }
  EXPECT_EQ(step, times.size());
  const auto median = time_until(curve, 0.5);
  ASSERT_TRUE(median.value && median.low);
  live.expect(data + ": median", "median", 0, median.value->value(), whole_days);
  live.expect(data + ": median, low end", "median", 1, median.low->value(), whole_days);
  if (live.words("median")[2] == "NA")
    EXPECT_FALSE(median.high);
  else
    live.expect(data + ": median, high end", "median", 2, median.high->value(), whole_days);
}

TEST(CurveReference, KaplanMeierWithLogBandAgreesWithR) {
  compare_curve("ovarian", "log", BandTransform::log);
  compare_curve("lung", "log", BandTransform::log);
}

TEST(CurveReference, KaplanMeierWithLogLogBandAgreesWithR) {
  compare_curve("ovarian", "log-log", BandTransform::log_log);
  compare_curve("veteran", "log-log", BandTransform::log_log);
}

TEST(CurveReference, IncidenceOfTwoEndingsAgreesWithR) {
  const LiveRows live("incidence");
  const auto list = incidence(live.lives());
  ASSERT_EQ(list.size(), live.words("times").size());
  const auto returned = live.numbers("returned");
  const auto replaced = live.numbers("replaced");
  for (std::size_t i = 0; i < list.size(); ++i) {
    EXPECT_NEAR(list[i].returned, returned.at(i), 1e-12);
    EXPECT_NEAR(list[i].replaced, replaced.at(i), 1e-12);
    if (i % recorded != first_recorded) continue;
    live.expect("incidence, first kind, step " + std::to_string(i), "returned", i, list[i].returned, digits);
    live.expect("incidence, second kind, step " + std::to_string(i), "replaced", i, list[i].replaced, digits);
  }
}

TEST(CurveReference, ComparisonOfGroupsAgreesWithR) {
  for (const std::string data : {"lung", "veteran", "colon"}) {
    const LiveRows live("groups " + data);
    const auto groups = live.groups();
    const auto found = log_rank(groups);
    for (std::size_t g = 0; g < groups.size(); ++g)
      live.expect(data + ": log-rank, expected in group " + std::to_string(g), "expected", g,
                  found.groups[g].expected, digits);
    live.expect(data + ": log-rank", "log_rank", 0, found.test.chi_square, digits);
    const auto ratio = weibull_ratio(groups);
    ASSERT_TRUE(ratio);
    live.expect(data + ": likelihood ratio of Weibull curves", "weibull_ratio", 0, ratio->chi_square, digits);
  }
}

TEST(CurveReference, MeanTimeBetweenReturnsAgreesWithR) {
  const std::vector<Life> lives{{seconds(500), Ending::returned}, {seconds(300), Ending::returned}};
  const LiveRows live("rate 800 2 0.9");
  const auto rate = return_rate(lives, 0.9);
  live.expect("800 h, 2 returns, 90 %: low", "low", 0, rate.low.value(), digits);
  live.expect("800 h, 2 returns, 90 %: high", "high", 0, rate.high->value(), digits);
}

}  // namespace
}  // namespace pumpwright::testing

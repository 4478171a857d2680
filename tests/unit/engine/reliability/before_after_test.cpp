#include "engine/reliability/before_after.h"

#include <cmath>

#include <gtest/gtest.h>

#include "lives.h"
#include "tests/support/refused.h"

namespace pumpwright::reliability {
namespace {

Lives many(std::size_t returned, std::size_t running, double first, double step) {
  Lives list;
  for (std::size_t i = 0; i < returned; ++i)
    list.push_back({seconds(first + step * static_cast<double>(i)), Ending::returned});
  list.insert(list.end(), running, {seconds(1000), Ending::running});
  return list;
}

TEST(BeforeAfter, ProvesFewerReturns) {
  const auto found = before_after(many(20, 10, 50, 40), many(4, 26, 90, 200));
  EXPECT_EQ(found.change, Change::fewer_returns);
  EXPECT_EQ(found.reason, ChangeReason::interval_below_one);
  EXPECT_LT(found.ratio_high, 1);
  EXPECT_GT(found.ratio_low, 0);
}

TEST(BeforeAfter, ProvesMoreReturnsTheOtherWayRound) {
  const auto a = before_after(many(20, 10, 50, 40), many(4, 26, 90, 200));
  const auto b = before_after(many(4, 26, 90, 200), many(20, 10, 50, 40));
  EXPECT_EQ(b.change, Change::more_returns);
  EXPECT_NEAR(b.ratio, 1 / a.ratio, 1e-9);
  EXPECT_NEAR(b.ratio_low, 1 / a.ratio_high, 1e-6);
  EXPECT_NEAR(b.ratio_high, 1 / a.ratio_low, 1e-6);
}

TEST(BeforeAfter, CanNotTellAndSaysWhatWouldSettleIt) {
  const auto found = before_after(many(4, 16, 100, 150), many(3, 17, 120, 200));
  EXPECT_EQ(found.change, Change::cannot_tell);
  EXPECT_EQ(found.reason, ChangeReason::one_in_the_interval);
  // Equal groups, half as often, 80 %: 4·7.8489/0.4805 = 65.35 returns; 59 more at 7 of 40.
  EXPECT_NEAR(found.settling.returns_needed, 65.35, 0.01);
  EXPECT_EQ(found.settling.returns_more, 59U);
  EXPECT_EQ(found.settling.pumps_more, 338U);
  EXPECT_LT(found.settling.power, 0.2);
}

TEST(BeforeAfter, NoReturnOnOneSideLeavesTheIntervalOpenThere) {
  const auto found = before_after(many(10, 10, 50, 60), many(0, 20, 0, 0));
  EXPECT_EQ(found.ratio, 0);
  EXPECT_EQ(found.ratio_low, 0);
  EXPECT_LT(found.ratio_high, 1);
  EXPECT_EQ(found.change, Change::fewer_returns);
  const auto other = before_after(many(0, 20, 0, 0), many(10, 10, 50, 60));
  EXPECT_TRUE(std::isinf(other.ratio) && std::isinf(other.ratio_high));
  EXPECT_NEAR(other.ratio_low, 1 / found.ratio_high, 1e-6);
}

TEST(BeforeAfter, ClaimsNothingFromFewReturns) {
  const auto few = before_after(many(4, 0, 1, 1), many(0, 50, 0, 0));
  EXPECT_EQ(few.change, Change::cannot_tell);
  EXPECT_EQ(few.reason, ChangeReason::too_few_returns);
  const auto none = before_after(many(0, 5, 0, 0), many(0, 5, 0, 0));
  EXPECT_EQ(none.reason, ChangeReason::too_few_returns);
  EXPECT_FALSE(none.settling.pumps_more);
  EXPECT_TRUE(std::isinf(none.ratio_high));
}

TEST(BeforeAfter, SidesThatWereNeverOutTogetherCanNotBeCompared) {
  const auto found = before_after(lives({1, 2, 3, 4, 5}), lives({}, {0.5, 0.6}));
  EXPECT_EQ(found.change, Change::cannot_tell);
  EXPECT_EQ(found.ratio_low, 0);
  EXPECT_TRUE(std::isinf(found.ratio_high));
}

TEST(BeforeAfter, RefusesAnEmptySide) {
  EXPECT_EQ(testing::refused_field([] { before_after(lives({1}), {}); }), "groups/1/lives");
}

}  // namespace
}  // namespace pumpwright::reliability

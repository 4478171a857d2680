#include "engine/reliability/survival_curve.h"

#include <cmath>

#include <gtest/gtest.h>

#include "lives.h"

namespace pumpwright::reliability {
namespace {

TEST(SurvivalCurve, StepsDownAtReturnsAlone) {
  // 5 at risk at 2: 4/5; one leaves at 3; 3 at risk at 4: 4/5·2/3.
  const auto curve = survival_curve(lives({2, 4}, {3, 6, 7}));
  ASSERT_EQ(curve.steps.size(), 2U);
  EXPECT_DOUBLE_EQ(curve.steps[0].surviving, 0.8);
  EXPECT_NEAR(curve.steps[1].surviving, 8.0 / 15, 1e-15);
  // Greenwood: 1/(5·4) + 1/(3·2).
  EXPECT_NEAR(curve.steps[1].standard_error, 8.0 / 15 * std::sqrt(0.05 + 1.0 / 6), 1e-15);
  EXPECT_EQ(curve.last.value(), 7);
}

TEST(SurvivalCurve, APumpThatLeavesWhenAnotherReturnsCountsAsAtRisk) {
  const auto curve = survival_curve(lives({4}, {4, 9}));
  EXPECT_NEAR(curve.steps[0].surviving, 2.0 / 3, 1e-15);
}

TEST(SurvivalCurve, EndsWithoutABandWhereNothingSurvives) {
  const auto curve = survival_curve(lives({1, 2}));
  EXPECT_TRUE(curve.steps[0].band);
  EXPECT_EQ(curve.steps[1].surviving, 0);
  EXPECT_FALSE(curve.steps[1].band);
}

TEST(SurvivalCurve, IsEmptyWithoutAReturn) {
  const auto curve = survival_curve(lives({}, {3, 8}));
  EXPECT_TRUE(curve.steps.empty());
  EXPECT_EQ(curve.last.value(), 8);
  EXPECT_FALSE(time_until(curve, 0.5).value);
}

TEST(SurvivalCurve, FindsTheStepThatHolds) {
  const auto curve = survival_curve(lives({2, 4}, {9}));
  EXPECT_EQ(step_at(curve, seconds(1)), nullptr);
  EXPECT_EQ(step_at(curve, seconds(2))->time.value(), 2);
  EXPECT_EQ(step_at(curve, seconds(3.9))->time.value(), 2);
  EXPECT_EQ(step_at(curve, seconds(100))->time.value(), 4);
}

TEST(SurvivalCurve, BandOfLogNeverExceedsOne) {
  const auto curve = survival_curve(lives({2}, {9, 9, 9, 9, 9}), BandTransform::log);
  EXPECT_EQ(curve.steps[0].band->high, 1);
  EXPECT_LT(survival_curve(lives({2}, {9, 9, 9, 9, 9})).steps[0].band->high, 1);
}

TEST(Incidence, SharesTheEndingsAndLeavesTheRestOut) {
  // 4 out; one returns at 1 (1/4); one replaced at 2 (3/4·1/3); the rest is out.
  const auto list = incidence(lives({1}, {5, 5}, {2}));
  ASSERT_EQ(list.size(), 2U);
  EXPECT_DOUBLE_EQ(list[1].returned, 0.25);
  EXPECT_DOUBLE_EQ(list[1].replaced, 0.25);
}

}  // namespace
}  // namespace pumpwright::reliability

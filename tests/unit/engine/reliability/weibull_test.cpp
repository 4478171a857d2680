#include "engine/reliability/weibull.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/reliability/weibull_limits.h"
#include "engine/reliability/weibull_threshold.h"
#include "lives.h"
#include "tests/support/refused.h"

namespace pumpwright::reliability {
namespace {

TEST(Weibull, HasNoFitWithoutReturnsOrWithAllAtTheEnd) {
  EXPECT_FALSE(fit_weibull(WeibullData(lives({}, {3, 8}))));
  EXPECT_FALSE(fit_weibull(WeibullData(lives({8, 8}, {3}))));
  EXPECT_FALSE(fit_weibull(WeibullData(lives({8}))));
  EXPECT_TRUE(fit_weibull(WeibullData(lives({8}, {8.1}))));
}

TEST(Weibull, GivesBackTheShapeItsQuantilesWereMadeWith) {
  std::vector<Life> list;
  for (int i = 0; i < 2000; ++i) {
    const double p = (i + 0.5) / 2000;
    list.push_back({seconds(1000 * std::pow(-std::log1p(-p), 1 / 2.5)), Ending::returned});
  }
  const auto fit = fit_weibull(WeibullData(list));
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->shape, 2.5, 0.01);
  EXPECT_NEAR(fit->scale.value(), 1000, 1);
}

TEST(Weibull, LifeAndSurvivalSayTheSame) {
  const WeibullData data(lives({10, 20, 40}, {50, 60}));
  const auto fit = fit_weibull(data);
  for (const double part : {0.01, 0.1, 0.5, 0.99})
    EXPECT_NEAR(surviving_at(data, *fit, life_at(data, *fit, part)), 1 - part, 1e-13);
  EXPECT_EQ(surviving_at(data, *fit, seconds(0)), 1);
}

TEST(Weibull, LimitsHoldTheEstimateBetweenThemAndWidenWithConfidence) {
  const WeibullData data(lives({10, 20, 40}, {50, 60}));
  const auto fit = fit_weibull(data);
  const auto b10 = life_at(data, *fit, 0.1);
  const auto narrow = life_limits(data, *fit, 0.1, 0.5);
  const auto wide = life_limits(data, *fit, 0.1, 0.99);
  EXPECT_LT(wide.low, narrow.low);
  EXPECT_LT(narrow.low, b10);
  EXPECT_LT(b10, narrow.high);
  EXPECT_LT(narrow.high, wide.high);
  const auto shape = shape_limits(data, *fit);
  EXPECT_LT(shape.low, fit->shape);
  EXPECT_GT(shape.high, fit->shape);
}

TEST(Weibull, OneReturnAmongManySetsALowerEndAndHardlyAnUpperOne) {
  const WeibullData data(lives({10}, {50, 50, 50, 50, 50}));
  const auto fit = fit_weibull(data);
  ASSERT_TRUE(fit);
  const auto limits = scale_limits(data, *fit);
  EXPECT_GT(limits.low.value(), 10);
  EXPECT_GT(limits.high.value(), 1e6);
}

TEST(WeibullThreshold, TakesAKnownTimeOffEveryLife) {
  const auto list = lives({110, 120, 140}, {150, 90});
  const WeibullData data(list, seconds(100));
  EXPECT_EQ(data.units(), 4U);  // the pump stopped at 90 says nothing
  const auto with = fit_weibull(data);
  const auto without = fit_weibull(WeibullData(lives({10, 20, 40}, {50})));
  EXPECT_NEAR(with->shape, without->shape, 1e-12);
  EXPECT_NEAR(life_at(data, *with, 0.1).value(),
              100 + without->scale.value() * std::pow(-std::log(0.9), 1 / without->shape), 1e-9);
  EXPECT_EQ(testing::refused_field([&] { WeibullData(list, seconds(110)); }), "threshold");
  EXPECT_EQ(testing::refused_field([&] { WeibullData(list, seconds(-1)); }), "threshold");
}

TEST(WeibullThreshold, IsNotThereWhereReturnsComeEarly) {
  std::vector<Life> list;
  for (int i = 0; i < 40; ++i)
    list.push_back({seconds(500 * std::pow(-std::log1p(-(i + 0.5) / 40), 2.0)), Ending::returned});
  EXPECT_FALSE(fit_threshold(list));
}

TEST(WeibullThreshold, IsNotProvenWhereThePlainCurveFits) {
  std::vector<Life> list;
  for (int i = 0; i < 30; ++i)
    list.push_back({seconds(500 * std::pow(-std::log1p(-(i + 0.5) / 30), 1 / 2.0)), Ending::returned});
  const auto fit = fit_threshold(list);
  ASSERT_TRUE(fit);
  EXPECT_FALSE(fit->is_proven);
  EXPECT_EQ(fit->low.value(), 0);
}

TEST(WeibullThreshold, NeedsThreeReturns) {
  EXPECT_FALSE(fit_threshold(lives({10, 20}, {50, 60})));
}

}  // namespace
}  // namespace pumpwright::reliability

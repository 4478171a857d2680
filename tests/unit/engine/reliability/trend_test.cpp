#include "engine/reliability/trend.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::reliability {
namespace {

History history(std::vector<double> ages, double until) {
  History h{.returns = {}, .until = seconds(until)};
  for (const double age : ages)
    h.returns.push_back(seconds(age));
  return h;
}

TEST(Trend, OfOnePumpHasItsClosedForm) {
  const auto t = trend(std::vector{history({100, 400, 700}, 1000)});
  ASSERT_TRUE(t);
  const double s = std::log(10.0) + std::log(2.5) + std::log(1000.0 / 700);
  EXPECT_NEAR(t->shape, 3 / s, 1e-13);
  EXPECT_NEAR(*t->corrected_shape, 2 / s, 1e-13);
  EXPECT_NEAR(std::pow(1000 / t->scale.value(), t->shape), 3, 1e-12);
  EXPECT_NEAR(t->mean_at_age.value(), 1000 / (3 * t->shape), 1e-10);
  EXPECT_LT(t->mean_at_age_low, t->mean_at_age);
  EXPECT_GT(t->mean_at_age_high, t->mean_at_age);
}

TEST(Trend, AReturnThatEndsTheWatchingIsNotCountedInTheTest) {
  EXPECT_EQ(trend(std::vector{history({100, 400, 1000}, 1000)})->test_dof, 4);
  EXPECT_EQ(trend(std::vector{history({100, 400, 1000}, 1001)})->test_dof, 6);
  EXPECT_FALSE(trend(std::vector{history({1000}, 1000)}));
  EXPECT_FALSE(trend(std::vector{history({}, 1000), history({}, 300)}));
}

TEST(Trend, SeesReturnsThatCrowdTogether) {
  const auto worse = trend(std::vector{history({900, 950, 970, 980, 990, 995, 998}, 1000)});
  EXPECT_GT(worse->shape_low, 1);
  EXPECT_LT(worse->p, 0.001);
  const auto better = trend(std::vector{history({1, 2, 4, 8, 20, 50, 100}, 1000)});
  EXPECT_LT(better->shape_high, 1);
  EXPECT_LT(better->p, 0.01);
}

TEST(Trend, RefusesAgesOutOfOrder) {
  EXPECT_EQ(testing::refused_field([] { trend({}); }), "histories");
  EXPECT_EQ(testing::refused_field([] { trend(std::vector{history({}, 0)}); }), "histories/0/until");
  EXPECT_EQ(testing::refused_field([] {
              trend(std::vector{history({400, 100}, 500)});
            }),
            "histories/0/returns/1");
  EXPECT_EQ(testing::refused_field([] { trend(std::vector{history({400}, 300)}); }), "histories/0/returns/0");
}

}  // namespace
}  // namespace pumpwright::reliability

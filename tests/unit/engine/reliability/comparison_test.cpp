#include "engine/reliability/comparison.h"

#include <array>

#include <gtest/gtest.h>

#include "lives.h"
#include "tests/support/refused.h"

namespace pumpwright::reliability {
namespace {

TEST(LogRank, WorksOutByHand) {
  // At 1: two at risk each, one return: expected 1/2, variance 1/4. At 2: one against two: 1/3, 2/9.
  const auto found = log_rank(std::array{lives({1, 2}), lives({}, {3, 3})});
  EXPECT_NEAR(found.groups[0].expected, 5.0 / 6, 1e-15);
  EXPECT_NEAR(found.groups[1].expected, 7.0 / 6, 1e-15);
  EXPECT_NEAR(found.test.chi_square, (7.0 / 6) * (7.0 / 6) / (17.0 / 36), 1e-13);
  EXPECT_EQ(found.test.dof, 1);
}

TEST(LogRank, SaysNothingWithoutAReturn) {
  const auto found = log_rank(std::array{lives({}, {3}), lives({}, {4})});
  EXPECT_EQ(found.test.p, 1);
  EXPECT_EQ(found.test.chi_square, 0);
}

TEST(LogRank, DoesNotCountAGroupThatWasNeverAtRisk) {
  // The third group left before the first return.
  const auto found = log_rank(std::array{lives({5, 8, 9}), lives({6, 7}, {9}), lives({}, {1, 2})});
  EXPECT_EQ(found.test.dof, 1);
}

TEST(LogRank, RefusesOneGroupAndEmptyOnes) {
  EXPECT_EQ(testing::refused_field([] { log_rank(std::array{lives({1})}); }), "groups");
  EXPECT_EQ(testing::refused_field([] { log_rank(std::array{lives({1}), lives({})}); }), "groups/1/lives");
}

TEST(WeibullRatio, IsZeroForTwiceTheSameAndNothingWithoutAFit) {
  const auto one = lives({3, 5, 9}, {10});
  const auto same = weibull_ratio(std::array{one, one});
  ASSERT_TRUE(same);
  EXPECT_NEAR(same->chi_square, 0, 1e-10);
  EXPECT_NEAR(same->p, 1, 1e-9);
  EXPECT_EQ(same->dof, 2);
  EXPECT_FALSE(weibull_ratio(std::array{one, lives({}, {4})}));
}

}  // namespace
}  // namespace pumpwright::reliability

#include "engine/reliability/returns_to_settle.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::reliability {
namespace {

TEST(ReturnsToSettle, PowerAndNumberAreEachOthersInverse) {
  for (const double ratio : {0.3, 0.8, 2.5})
    for (const double share : {0.2, 0.5}) {
      const TestPlan plan{.confidence = 0.9, .power = 0.7};
      EXPECT_NEAR(power_with(returns_to_settle(ratio, share, plan), ratio, share, plan.confidence), 0.7,
                  1e-12);
    }
}

TEST(ReturnsToSettle, IsTheSameForARatioAndItsInverseAndLeastForEqualGroups) {
  EXPECT_NEAR(returns_to_settle(0.5, 0.5), returns_to_settle(2, 0.5), 1e-10);
  EXPECT_NEAR(returns_to_settle_freedman(0.5), returns_to_settle_freedman(2), 1e-10);
  EXPECT_LT(returns_to_settle(0.5, 0.5), returns_to_settle(0.5, 0.3));
}

TEST(ReturnsToSettle, RefusesWhatNothingCanSettle) {
  EXPECT_EQ(testing::refused_field([] { returns_to_settle(1, 0.5); }), "ratio");
  EXPECT_EQ(testing::refused_field([] { returns_to_settle(-2, 0.5); }), "ratio");
  EXPECT_EQ(testing::refused_field([] { returns_to_settle(2, 1); }), "share");
  EXPECT_EQ(testing::refused_field([] { returns_to_settle(2, 0.5, {.confidence = 1}); }), "confidence");
  EXPECT_EQ(testing::refused_field([] { returns_to_settle_freedman(2, {.power = 0}); }), "power");
  EXPECT_EQ(testing::refused_field([] { power_with(10, 2, 0.5, 2); }), "confidence");
}

}  // namespace
}  // namespace pumpwright::reliability

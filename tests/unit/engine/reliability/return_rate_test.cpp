#include "engine/reliability/return_rate.h"

#include <gtest/gtest.h>

#include "lives.h"

namespace pumpwright::reliability {
namespace {

TEST(ReturnRate, IsTimeOverReturns) {
  const auto rate = return_rate(lives({100, 300}, {400}));
  ASSERT_TRUE(rate.mean && rate.high);
  EXPECT_DOUBLE_EQ(rate.mean->value(), 400);
  EXPECT_LT(rate.low, *rate.mean);
  EXPECT_GT(*rate.high, *rate.mean);
}

TEST(ReturnRate, CountsAReplacedPumpsTimeButNoReturn) {
  const auto rate = return_rate(lives({100}, {}, {300}));
  EXPECT_EQ(rate.returned, 1U);
  EXPECT_DOUBLE_EQ(rate.total.value(), 400);
}

}  // namespace
}  // namespace pumpwright::reliability

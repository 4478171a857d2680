#include "engine/metrology/vector_amount.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

constexpr double many = std::numeric_limits<double>::infinity();

TEST(VectorAmount, AlongTheVectorWhileItIsToldFromNothing) {
  EXPECT_NEAR(amount_u(0, 100, {400, 0, 0, 25}, many), 5, 1e-12);
  EXPECT_NEAR(amount_u(300, 0, {400, 0, 0, 25}, many), 20, 1e-12);
  // 45° with correlation: (400 + 25 + 2·60)/2.
  EXPECT_NEAR(amount_u(300, 300, {400, 60, 60, 25}, many), std::sqrt(272.5), 1e-12);
}

TEST(VectorAmount, TheLargerHalfAxisNearZero) {
  EXPECT_NEAR(amount_u(0, 3, {400, 0, 0, 25}, many), 20, 1e-12);
  EXPECT_NEAR(amount_u(0, 0, {9, 0, 0, 16}, many), 4, 1e-12);
  // Fewer degrees of freedom widen the region: 20 stands outside it with many, inside with two (2·F = 38).
  EXPECT_NEAR(amount_u(0, 20, {400, 0, 0, 25}, many), 5, 1e-12);
  EXPECT_NEAR(amount_u(0, 20, {400, 0, 0, 25}, 2), 20, 1e-12);
}

TEST(VectorAmount, WithoutAnyDoubtThereIsNone) {
  EXPECT_EQ(amount_u(1, 1, {0, 0, 0, 0}, many), 0);
}

}  // namespace
}  // namespace pumpwright

#include "engine/assembly/shaft_alignment_shims.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::alignment {
namespace {

using testing::refused_field;

Length thou(double v) {
  return metres(v * 25.4e-6);
}

const std::vector<Length> drawer{thou(1), thou(2), thou(5), thou(10), thou(25)};

TEST(ShaftAlignmentShims, TheNearestPackWithTheFewestShims) {
  const auto pack = nearest_pack(thou(17), drawer, 3);
  ASSERT_EQ(pack.shims.size(), 3U);
  EXPECT_EQ(pack.shims[0], thou(10));
  EXPECT_EQ(pack.shims[1], thou(5));
  EXPECT_EQ(pack.shims[2], thou(2));
  EXPECT_NEAR(pack.left.value(), 0, 1e-15);
  EXPECT_EQ(nearest_pack(thou(10), drawer, 4).shims.size(), 1U);
}

TEST(ShaftAlignmentShims, TheCountBoundsThePack) {
  const auto pack = nearest_pack(thou(17), drawer, 2);
  EXPECT_NEAR(std::abs(pack.left.value()), thou(2).value(), 1e-12);  // 10 + 5
  EXPECT_EQ(pack.shims.size(), 2U);
  EXPECT_TRUE(nearest_pack(thou(0), drawer, 3).shims.empty());
  EXPECT_TRUE(nearest_pack(thou(0.4), drawer, 3).shims.empty());
}

TEST(ShaftAlignmentShims, ATooThickPackMayBeNearer) {
  const std::vector<Length> coarse{thou(10)};
  EXPECT_EQ(nearest_pack(thou(16), coarse, 3).shims.size(), 2U);
  EXPECT_NEAR(nearest_pack(thou(16), coarse, 3).left.value(), thou(-4).value(), 1e-12);
}

TEST(ShaftAlignmentShims, TheSoftestFootIsNamedFirst) {
  const auto soft = soft_foot_of({thou(1), thou(5), thou(8), thou(2)});
  ASSERT_EQ(soft.soft.size(), 2U);
  EXPECT_EQ(soft.soft[0], Foot::back_left);
  EXPECT_EQ(soft.soft[1], Foot::front_right);
  EXPECT_EQ(*soft.shim, thou(8));
  EXPECT_TRUE(soft.rocks);
  EXPECT_STREQ(word_for(soft.soft[0]), "back left");
  EXPECT_FALSE(soft_foot_of({thou(1), thou(5), thou(1), thou(5)}).rocks);
  EXPECT_TRUE(soft_foot_of({thou(2), thou(2), thou(2), thou(0)}).soft.empty());
  EXPECT_FALSE(soft_foot_of({thou(1), thou(1), thou(1), thou(0)}).shim);
}

TEST(ShaftAlignmentShims, WhatIsOutOfRangeIsRefused) {
  EXPECT_EQ(refused_field([] { (void)nearest_pack(thou(-1), drawer, 3); }), "shims/wanted");
  EXPECT_EQ(refused_field([] { (void)nearest_pack(thou(1), {}, 3); }), "shims/stock");
  EXPECT_EQ(refused_field([] { (void)nearest_pack(thou(1), drawer, 0); }), "shims/most");
  const std::vector<Length> none{thou(0)};
  EXPECT_EQ(refused_field([&] { (void)nearest_pack(thou(1), none, 3); }), "shims/stock");
  EXPECT_EQ(refused_field([] { (void)soft_foot_of({thou(1), thou(1), thou(-1), thou(0)}); }), "soft_foot");
}

}  // namespace
}  // namespace pumpwright::alignment

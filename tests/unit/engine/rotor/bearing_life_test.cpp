#include "engine/rotor/bearing_life.h"

#include <array>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

const RatedBearing groove{BearingKind::deep_groove_ball, newtons(30'000), newtons(18'000), 14.0};
const RatedBearing angular{BearingKind::angular_contact_ball_40, newtons(30'000), std::nullopt, std::nullopt};
const RatedBearing roller{BearingKind::cylindrical_roller, newtons(40'000), std::nullopt, std::nullopt};
const Speed speed = radians_per_second(100 * pi);  // 3000 rpm

TEST(BearingLife, WordsLeadThereAndBack) {
  for (const auto kind :
       {BearingKind::deep_groove_ball, BearingKind::angular_contact_ball_40, BearingKind::cylindrical_roller})
    EXPECT_EQ(bearing_kind(word_for(kind), "kind"), kind);
  EXPECT_EQ(testing::refused_field([] { bearing_kind("plain", "bearings/0/kind"); }), "bearings/0/kind");
}

TEST(BearingLife, ALittleThrustOnADeepGrooveBearingCountsNothing) {
  EXPECT_EQ(equivalent_load(groove, newtons(2000), newtons(0)).value(), 2000);
  EXPECT_EQ(equivalent_load(groove, newtons(2000), newtons(100)).value(), 2000);
  EXPECT_GT(equivalent_load(groove, newtons(2000), newtons(1500)).value(), 2000);
}

TEST(BearingLife, FactorsRunStraightBetweenTheRows) {
  // f0 Fa / C0 half way between 1.38 and 2.07: Y half way between 1.45 and 1.31
  const LoadFactors k = load_factors(groove, newtons(100), newtons((1.38 + 2.07) / 2 * 18'000 / 14));
  EXPECT_EQ(k.x, 0.56);
  EXPECT_NEAR(k.y, 1.38, 1e-12);
  EXPECT_NEAR(k.e, 0.32, 1e-12);
}

TEST(BearingLife, BelowTheTableItsFirstRowHolds) {
  EXPECT_EQ(load_factors(groove, newtons(0), newtons(1)).y, 2.30);
}

TEST(BearingLife, ThrustAtTheEdgeOfCountingHardlyChangesTheLoad) {
  for (const RatedBearing& bearing : {groove, angular}) {
    const Force axial = newtons(2000);
    const double e = load_factors(bearing, newtons(0), axial).e;
    const double edge_n = 2000 / e;
    const double below = equivalent_load(bearing, newtons(edge_n * 1.000001), axial).value();
    const double above = equivalent_load(bearing, newtons(edge_n * 0.999999), axial).value();
    EXPECT_NEAR(above / below, 1, 0.01) << word_for(bearing.kind);
  }
}

TEST(BearingLife, HalfTheLoadIsEightTimesTheLifeOfABall) {
  const double life = basic_life(groove, newtons(3000), speed) / basic_life(groove, newtons(6000), speed);
  EXPECT_NEAR(life, 8, 1e-12);
  const double rolls = basic_life(roller, newtons(3000), speed) / basic_life(roller, newtons(6000), speed);
  EXPECT_NEAR(rolls, std::pow(2, 10.0 / 3), 1e-12);
}

TEST(BearingLife, ARatedLoadIsAMillionTurns) {
  EXPECT_NEAR(basic_life(groove, newtons(30'000), speed).value(), 1e6 / 50, 1e-9);
  EXPECT_EQ(basic_life(groove, newtons(0), speed).value(), std::numeric_limits<double>::infinity());
  EXPECT_TRUE(within_life_formula(groove, newtons(15'000)));
  EXPECT_FALSE(within_life_formula(groove, newtons(15'001)));
}

TEST(BearingLife, TwoTogetherLastShorterThanTheShorter) {
  const std::array lives{seconds(1000), seconds(3000)};
  EXPECT_LT(system_life(lives).value(), 1000);
  const std::array one{seconds(1000), seconds(std::numeric_limits<double>::infinity())};
  EXPECT_NEAR(system_life(one).value(), 1000, 1e-9);
  const std::array endless{seconds(std::numeric_limits<double>::infinity())};
  EXPECT_EQ(system_life(endless).value(), std::numeric_limits<double>::infinity());
}

TEST(BearingLife, WhatIsMissingOrBeyondTheTableIsNamed) {
  const auto field = [](RatedBearing bearing, double axial_n) {
    return testing::refused_field([&] { equivalent_load(bearing, newtons(1000), newtons(axial_n)); });
  };
  RatedBearing bare = groove;
  bare.static_rating.reset();
  EXPECT_EQ(field(bare, 0), "");
  EXPECT_EQ(field(bare, 500), "static_rating");
  bare = groove;
  bare.f0.reset();
  EXPECT_EQ(field(bare, 500), "f0");
  EXPECT_EQ(field(groove, 9000), "axial_load");
  EXPECT_EQ(field(roller, 500), "axial_load");
  EXPECT_EQ(field(roller, -1), "axial_load");
  bare = groove;
  bare.dynamic_rating = newtons(0);
  EXPECT_EQ(field(bare, 0), "dynamic_rating");
  bare = groove;
  bare.f0 = 50;
  EXPECT_EQ(field(bare, 0), "f0");
  EXPECT_EQ(testing::refused_field([] { basic_life(groove, newtons(1), radians_per_second(0)); }), "speed");
}

}  // namespace
}  // namespace pumpwright::rotor

#include "engine/rotor/balance_tolerance.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

using testing::refused_field;

RotorToBalance rotor(double kg = 10, double rpm = 3000, double grade_mm_s = 6.3) {
  return {kilograms(kg), radians_per_second(rpm * pi / 30), metres_per_second(grade_mm_s * 1e-3)};
}

TEST(BalanceTolerance, TheGradeIsTheSpeedOfTheCentreOfMass) {
  EXPECT_NEAR(permissible_eccentricity(rotor()).value(), 6.3e-3 / (100 * pi), 1e-18);
  EXPECT_NEAR(permissible_unbalance(rotor()).value(), 0.063 / (100 * pi), 1e-17);
}

TEST(BalanceTolerance, ListedGradesRiseByTwoAndAHalf) {
  const auto grades = listed_grades();
  ASSERT_EQ(grades.size(), 11U);
  for (std::size_t i = 1; i < grades.size(); ++i) {
    EXPECT_GT(grades[i].value() / grades[i - 1].value(), 2.45);
    EXPECT_LT(grades[i].value() / grades[i - 1].value(), 2.56);
  }
  EXPECT_TRUE(is_listed(metres_per_second(2.5e-3)));
  EXPECT_FALSE(is_listed(metres_per_second(4e-3)));
}

TEST(BalanceTolerance, WhatIsOutOfRangeIsRefused) {
  EXPECT_EQ(refused_field([] { (void)permissible_unbalance(rotor(0)); }), "rotor/mass");
  EXPECT_EQ(refused_field([] { (void)permissible_unbalance(rotor(1e6)); }), "rotor/mass");
  EXPECT_EQ(refused_field([] { (void)permissible_unbalance(rotor(1, 0.5)); }), "rotor/speed");
  EXPECT_EQ(refused_field([] { (void)permissible_unbalance(rotor(1, 3000, 0.1)); }), "rotor/grade");
  EXPECT_EQ(refused_field([] { (void)permissible_unbalance(rotor(1, 3000, 16000)); }), "rotor/grade");
}

TEST(BalanceTolerance, BetweenBearingsTheNearerOneTakesMore) {
  const auto t = tolerance_at_bearings(kilogram_metres(1), {metres(0), metres(1), metres(0.4)});
  EXPECT_EQ(t.mass, MassStands::between_bearings);
  EXPECT_NEAR(t.a.value(), 0.6, 1e-15);
  EXPECT_NEAR(t.b.value(), 0.4, 1e-15);
  EXPECT_FALSE(t.bounded);
  EXPECT_EQ(t.how, HowKnown::read);
}

TEST(BalanceTolerance, SharesAreBounded) {
  const auto t = tolerance_at_bearings(kilogram_metres(1), {metres(0), metres(1), metres(0.1)});
  EXPECT_NEAR(t.a.value(), 0.7, 1e-15);
  EXPECT_NEAR(t.b.value(), 0.3, 1e-15);
  EXPECT_TRUE(t.bounded);
  EXPECT_EQ(t.how, HowKnown::remembered);
}

TEST(BalanceTolerance, AnOutboardMassMayLoadTheNearBearingWithMoreThanAll) {
  const auto mild = tolerance_at_bearings(kilogram_metres(1), {metres(0), metres(1), metres(1.2)});
  EXPECT_EQ(mild.mass, MassStands::outboard);
  EXPECT_NEAR(mild.b.value(), 1.2, 1e-15);
  EXPECT_NEAR(mild.a.value(), 0.3, 1e-15);
  const auto far = tolerance_at_bearings(kilogram_metres(1), {metres(1), metres(0), metres(1.9)});
  EXPECT_NEAR(far.a.value(), 1.3, 1e-15);
  EXPECT_NEAR(far.b.value(), 0.9, 1e-15);
  EXPECT_TRUE(far.bounded);
}

TEST(BalanceTolerance, TwoBearingsInOnePlaneAreRefused) {
  EXPECT_EQ(refused_field([] {
              (void)tolerance_at_bearings(kilogram_metres(1), {metres(1), metres(1), metres(0)});
            }),
            "rotor/bearings");
}

}  // namespace
}  // namespace pumpwright::rotor

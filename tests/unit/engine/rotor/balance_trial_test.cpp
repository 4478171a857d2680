#include "engine/rotor/balance_trial.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

using testing::refused_field;

TEST(BalanceTrial, ATenthOfTheStaticLoad) {
  const Speed speed = radians_per_second(300);
  const Mass m = trial_mass(kilograms(20), 1, metres(0.1), speed);
  EXPECT_NEAR(m.value(), 0.1 * 20 * 9.80665 / (0.1 * 9e4), 1e-15);
  EXPECT_NEAR(centrifugal_force(kilogram_metres(m.value() * 0.1), speed).value(), 19.6133, 1e-9);
  EXPECT_NEAR(trial_mass(kilograms(20), 2, metres(0.1), speed).value(), m.value() / 2, 1e-15);
}

TEST(BalanceTrial, AChangeOfThirtyPerCentOrThirtyDegreesSaysSomething) {
  EXPECT_FALSE(change_between({1, degrees(0)}, {1.2, degrees(20)}).enough());
  EXPECT_TRUE(change_between({1, degrees(0)}, {0.6, degrees(0)}).enough());
  EXPECT_TRUE(change_between({1, degrees(350)}, {1, degrees(25)}).enough());
  EXPECT_NEAR(degrees_of(change_between({1, degrees(350)}, {1, degrees(25)}).of_phase), 35, 1e-12);
  EXPECT_TRUE(std::isinf(change_between({0, degrees(0)}, {1, degrees(0)}).of_amplitude));
  EXPECT_EQ(change_between({0, degrees(0)}, {0, degrees(0)}).of_amplitude, 0);
  EXPECT_NEAR(change_between({3, degrees(0)}, {4, degrees(90)}).vector, 5, 1e-12);
}

TEST(BalanceTrial, NothingIsRecommendedForNothing) {
  EXPECT_EQ(refused_field([] { (void)trial_mass(kilograms(0), 1, metres(1), radians_per_second(1)); }),
            "rotor/mass");
  EXPECT_EQ(refused_field([] { (void)trial_mass(kilograms(1), 0, metres(1), radians_per_second(1)); }),
            "planes");
  EXPECT_EQ(refused_field([] { (void)trial_mass(kilograms(1), 1, metres(0), radians_per_second(1)); }),
            "planes/radius");
  EXPECT_EQ(refused_field([] { (void)trial_mass(kilograms(1), 1, metres(1), radians_per_second(0)); }),
            "rotor/balancing_speed");
}

}  // namespace
}  // namespace pumpwright::rotor

#include "engine/rotor/unbalance.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

TEST(Unbalance, AMassAtARadiusAndAGradePullAlike) {
  const Speed speed = radians_per_second(300);
  const Unbalance left = unbalance_of_mass(kilograms(0.002), metres(0.09));
  EXPECT_NEAR(left.value(), 1.8e-4, 1e-18);
  EXPECT_NEAR(unbalance_force(left, speed).value(), 16.2, 1e-12);
  const Unbalance graded = unbalance_of_grade(kilograms(6), metres_per_second(0.009), speed);
  EXPECT_NEAR(graded / left, 1, 1e-12);
}

TEST(Unbalance, ImpossibleOnesAreNamed) {
  const Speed speed = radians_per_second(300);
  EXPECT_EQ(testing::refused_field([&] { unbalance_of_grade(kilograms(1), metres_per_second(5), speed); }),
            "unbalance/grade");
  EXPECT_EQ(testing::refused_field(
                [] { unbalance_of_grade(kilograms(1), metres_per_second(0.001), radians_per_second(0)); }),
            "speed");
  EXPECT_EQ(testing::refused_field([] { unbalance_of_mass(kilograms(-1), metres(0.1)); }), "unbalance/mass");
  EXPECT_EQ(testing::refused_field([] { unbalance_of_mass(kilograms(1), metres(6)); }), "unbalance/radius");
}

}  // namespace
}  // namespace pumpwright::rotor

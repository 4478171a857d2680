#include "engine/seal/spring.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

const Measured<SpringRate> rate{newtons_per_metre(8000), newtons_per_metre(400)};

TEST(Spring, TheThreeWaysToSayItAgree) {
  const Measured<Length> at{metres(0.030), metres(0)};
  const Spring free = spring_of_free_length({metres(0.040), metres(0)}, rate);
  const Spring nominal = spring_of_nominal({metres(0.032), metres(0)}, {newtons(64), newtons(0)}, rate);
  const Spring two =
      spring_of_two_points({metres(0.040), metres(0)}, {metres(0.032), metres(0)}, {newtons(64), newtons(0)});
  for (const Spring& spring : {free, nominal, two}) {
    EXPECT_NEAR(force_at(spring, at).force.value.value(), 80, 1e-9);
    EXPECT_NEAR(force_at(spring, at).compression.value(), 0.010, 1e-12);
    EXPECT_NEAR(length_without_load(spring).value(), 0.040, 1e-12);
  }
}

TEST(Spring, DoubtsOfLengthRateAndForceAddInQuadrature) {
  const Spring spring = spring_of_nominal({metres(0.032), metres(0.0001)}, {newtons(64), newtons(3)}, rate);
  const SpringForce f = force_at(spring, {metres(0.030), metres(0.0002)});
  const double expected_n = std::sqrt(3 * 3 + 0.002 * 400 * 0.002 * 400 + 0.8 * 0.8 + 1.6 * 1.6);
  EXPECT_NEAR(f.force.u.value(), expected_n, 1e-9);
  EXPECT_NEAR((f.high - f.low).value(), 4 * expected_n, 1e-9);
  EXPECT_EQ(f.state, SpringState::loaded);
  EXPECT_FALSE(f.may_be_slack);
}

TEST(Spring, TooLongALengthLeavesItSlack) {
  const Spring spring = spring_of_free_length({metres(0.040), metres(0.0001)}, rate);
  const SpringForce f = force_at(spring, {metres(0.041), metres(0)});
  EXPECT_EQ(f.state, SpringState::slack);
  EXPECT_EQ(f.force.value.value(), 0);
  EXPECT_LT(f.compression.value(), 0);
  const SpringForce nearly = force_at(spring, {metres(0.03995), metres(0.0001)});
  EXPECT_EQ(nearly.state, SpringState::loaded);
  EXPECT_TRUE(nearly.may_be_slack);
  EXPECT_EQ(nearly.low.value(), 0);
}

TEST(Spring, TooShortALengthBindsTheCoils) {
  Spring spring = spring_of_free_length({metres(0.040), metres(0)}, rate);
  spring.solid_length = metres(0.020);
  EXPECT_EQ(force_at(spring, {metres(0.0199), metres(0)}).state, SpringState::coil_bound);
  const SpringForce close = force_at(spring, {metres(0.0201), metres(0.0001)});
  EXPECT_EQ(close.state, SpringState::loaded);
  EXPECT_TRUE(close.may_be_coil_bound);
  EXPECT_FALSE(force_at(spring, {metres(0.0205), metres(0.0001)}).may_be_coil_bound);
}

TEST(Spring, ImpossibleSpringsAreNamed) {
  const Measured<Length> at{metres(0.030), metres(0)};
  EXPECT_EQ(testing::refused_field([&] {
              spring_of_two_points({metres(0.030), metres(0)}, at, {newtons(64), newtons(0)});
            }),
            "spring/length");
  EXPECT_EQ(testing::refused_field([&] {
              force_at(spring_of_free_length(at, {newtons_per_metre(0), newtons_per_metre(0)}), at);
            }),
            "spring/rate");
  EXPECT_EQ(testing::refused_field([&] {
              force_at(spring_of_free_length(at, rate), {metres(0.03), metres(-1)});
            }),
            "spring length/u");
  Spring bound = spring_of_free_length(at, rate);
  bound.solid_length = metres(0.031);
  EXPECT_EQ(testing::refused_field([&] { force_at(bound, at); }), "spring/solid_length");
}

}  // namespace
}  // namespace pumpwright::seal

#include "engine/rotor/whirl.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/given_rotor.h"
#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

RotorMatrices given() {
  return rotor_matrices(testing::overhung_rotor(), 20);
}

TEST(Whirl, AtRestBothSensesAreOne) {
  const auto modes = whirl_modes(given(), radians_per_second(0), 3);
  ASSERT_EQ(modes.size(), 6U);
  for (std::size_t i = 0; i < 6; i += 2) {
    EXPECT_NEAR(modes[i].frequency / modes[i + 1].frequency, 1, 1e-9);
    EXPECT_NE(modes[i].forward, modes[i + 1].forward);
  }
}

TEST(Whirl, SpinRaisesForwardAndLowersBackward) {
  const RotorMatrices m = given();
  const auto lowest = [&](double speed, bool forward) {
    for (const WhirlMode& mode : whirl_modes(m, radians_per_second(speed), 1))
      if (mode.forward == forward) return mode.frequency.value();
    return 0.0;
  };
  EXPECT_GT(lowest(400, true), lowest(100, true));
  EXPECT_GT(lowest(100, true), lowest(0, true));
  EXPECT_LT(lowest(400, false), lowest(100, false));
  EXPECT_LT(lowest(100, false), lowest(0, false));
}

TEST(Whirl, ACriticalSpeedIsWhereAModeMeetsTheSpeed) {
  const RotorMatrices m = given();
  const CriticalSpeeds critical = critical_speeds(m, 2);
  ASSERT_GE(critical.forward.size(), 1U);
  ASSERT_EQ(critical.backward.size(), 2U);
  for (const bool forward : {true, false}) {
    const Speed at = forward ? critical.forward.front() : critical.backward.front();
    double nearest = 1;
    for (const WhirlMode& mode : whirl_modes(m, at, 2))
      if (mode.forward == forward) nearest = std::min(nearest, std::fabs(mode.frequency / at - 1));
    EXPECT_LT(nearest, 1e-9);
  }
}

// How many powers of the element's length the error of a critical speed falls with.
double order_of(double diameter_m) {
  const auto second_at = [diameter_m](int elements) {
    const Rotor shaft = testing::even_shaft(1, diameter_m, 0, 1);
    return critical_speeds(rotor_matrices(shaft, elements), 2).forward.at(1).value();
  };
  const double best = second_at(96);
  return std::log2((second_at(8) / best - 1) / (second_at(16) / best - 1));
}

TEST(Whirl, RefiningConvergesWithTheFourthPowerWhileElementsAreSlender) {
  EXPECT_NEAR(order_of(0.002), 4, 0.1);
}

TEST(Whirl, RefiningConvergesWithTheSecondPowerOnceElementsAreShorterThanTheShaftIsThick) {
  EXPECT_NEAR(order_of(0.2), 2, 0.2);
}

TEST(Whirl, TheUsualDivisionOfTheGivenPumpIsConverged) {
  const Rotor rotor = testing::overhung_rotor();
  const auto usual = critical_speeds(rotor_matrices(rotor), 3);
  const auto fine = critical_speeds(rotor_matrices(rotor, 4 * usual_elements), 3);
  EXPECT_NEAR(usual.forward[0] / fine.forward[0], 1, 1e-5);
  EXPECT_NEAR(usual.backward[2] / fine.backward[2], 1, 1e-4);
}

TEST(Whirl, BadArgumentsAreNamed) {
  EXPECT_EQ(testing::refused_field([] { whirl_modes(given(), radians_per_second(-1), 2); }), "speed");
  EXPECT_EQ(testing::refused_field([] { whirl_modes(given(), radians_per_second(1), 0); }), "count");
  EXPECT_EQ(testing::refused_field([] { critical_speeds(given(), 21); }), "count");
}

}  // namespace
}  // namespace pumpwright::rotor

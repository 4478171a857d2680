#include "engine/seal/face_load.h"

#include <gtest/gtest.h>

#include "tests/support/given_liquid.h"
#include "tests/support/given_seal.h"
#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

FaceLoadCase given() {
  FaceLoadCase c;
  c.faces = testing::given_faces();
  c.across = pascals(1e6);
  c.spring = newtons(190);
  c.speed = radians_per_second(300);
  return c;
}

TEST(FaceLoad, NetPressureIsThePressureFormPlusTheSpring) {
  const FaceLoadCase c = given();
  const FaceLoad load = face_load(c);
  EXPECT_NEAR(load.net_pressure.value(), 1e6 * (balance_ratio(c.faces) - 0.5) + load.spring_pressure.value(),
              1e-6);
  EXPECT_GT(load.closing_pressure, load.net_pressure);
  EXPECT_NEAR(load.pv.value(), load.net_pressure.value() * load.sliding.value(), 1e-6);
  EXPECT_NEAR(load.pv_of_across.value(), 1e6 * load.sliding.value(), 1e-6);
}

TEST(FaceLoad, HeatIsFrictionTimesSpeedAndStartingIsThreeToFiveTimesRunning) {
  const FaceLoad load = face_load(given());
  EXPECT_NEAR(load.heat.value(), load.net.value() * 0.07 * load.sliding.value(), 1e-9);
  EXPECT_NEAR(load.heat.value(), load.running.value() * 300, 1e-9);
  EXPECT_NEAR(load.starting_low / load.running, 3, 1e-12);
  EXPECT_NEAR(load.starting_high / load.running, 5, 1e-12);
}

TEST(FaceLoad, AnOpenedFaceRubsNothing) {
  FaceLoadCase c = given();
  c.spring = newtons(0);
  c.gradient_factor = 0.9;
  const FaceLoad load = face_load(c);
  EXPECT_LT(load.net.value(), 0);
  EXPECT_EQ(load.running.value(), 0);
  EXPECT_EQ(load.heat.value(), 0);
  EXPECT_EQ(load.pv.value(), 0);
}

TEST(FaceLoad, CirculationCarriesTheHeat) {
  const testing::GivenLiquid liquid;
  const VolumeFlow flow = circulation_for(watts(420), kelvin_step(5), liquid, kelvin(300), {pascals(3e5)});
  EXPECT_NEAR(flow.value() * 1000 * 4200 * 5, 420, 1e-9);
  EXPECT_EQ(testing::refused_field(
                [&] { circulation_for(watts(420), kelvin_step(0), liquid, kelvin(300), {pascals(3e5)}); }),
            "rise");
}

TEST(FaceLoad, ImpossibleInputsAreNamed) {
  const auto field = [](auto change) {
    FaceLoadCase c = given();
    change(c);
    return testing::refused_field([&] { face_load(c); });
  };
  EXPECT_EQ(field([](auto& c) { c.across = pascals(-1); }), "pressure across");
  EXPECT_EQ(field([](auto& c) { c.spring = newtons(-1); }), "spring force");
  EXPECT_EQ(field([](auto& c) { c.gradient_factor = 1.1; }), "gradient factor");
  EXPECT_EQ(field([](auto& c) { c.friction = -0.1; }), "friction");
  EXPECT_EQ(field([](auto& c) { c.speed = radians_per_second(1e5); }), "speed");
}

}  // namespace
}  // namespace pumpwright::seal

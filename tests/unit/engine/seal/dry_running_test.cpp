#include "engine/seal/dry_running.h"

#include <gtest/gtest.h>

#include "tests/support/given_seal.h"
#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

const RingMaterial carbon{watts_per_metre_kelvin(10), kilograms_per_cubic_metre(1850),
                          joules_per_kilogram_kelvin(700)};
const RingMaterial silicon_carbide{watts_per_metre_kelvin(120), kilograms_per_cubic_metre(3100),
                                   joules_per_kilogram_kelvin(700)};

DryRun given() {
  return {watts(300),     kilograms(0.08), joules_per_kilogram_kelvin(700), HeatConductance::from_value(0.5),
          kelvin(293.15), kelvin(473.15),  square_metres(1.1e-3),           carbon,
          silicon_carbide};
}

TEST(DryRunning, LossOnlyLengthensTheTime) {
  const DryRunTime t = time_to_damage(given());
  ASSERT_TRUE(t.lump);
  EXPECT_GT(*t.lump, t.adiabatic);
  EXPECT_LE(t.earliest, t.adiabatic);
  EXPECT_LE(t.earliest, t.skin);
}

TEST(DryRunning, EnoughLossNeverGetsThere) {
  DryRun run = given();
  run.loss = HeatConductance::from_value(2);
  const DryRunTime t = time_to_damage(run);
  EXPECT_FALSE(t.lump);
  EXPECT_NEAR(kelvin_of(t.settles), 293.15 + 150, 1e-9);
}

TEST(DryRunning, TheLumpReachesTheDamageWhenItIsSaidTo) {
  const DryRun run = given();
  EXPECT_NEAR(kelvin_of(lump_temperature(run, *time_to_damage(run).lump)), 473.15, 1e-9);
  EXPECT_NEAR(kelvin_of(lump_temperature(run, seconds(0))), 293.15, 1e-12);
  EXPECT_NEAR(kelvin_of(lump_temperature(run, seconds(1e6))), kelvin_of(time_to_damage(run).settles), 1e-6);
}

TEST(DryRunning, TheSkinGoesWithTheSquareOfTheHeat) {
  DryRun run = given();
  const double one_s = time_to_damage(run).skin.value();
  run.heat = watts(600);
  EXPECT_NEAR(time_to_damage(run).skin.value(), one_s / 4, 1e-9);
}

TEST(DryRunning, HeatIsFrictionOfTheSpringAlone) {
  const Power heat = dry_heat(testing::given_faces(), newtons(190), 0.2, radians_per_second(300));
  EXPECT_NEAR(heat.value(), 0.2 * 190 * 0.05525 / 2 * 300, 1e-9);
}

TEST(DryRunning, ImpossibleInputsAreNamed) {
  const auto field = [](auto change) {
    DryRun run = given();
    change(run);
    return testing::refused_field([&] { time_to_damage(run); });
  };
  EXPECT_EQ(field([](auto& r) { r.heat = watts(0); }), "dry run/heat");
  EXPECT_EQ(field([](auto& r) { r.heated = kilograms(0); }), "dry run/heated");
  EXPECT_EQ(field([](auto& r) { r.loss = HeatConductance::from_value(-1); }), "dry run/loss");
  EXPECT_EQ(field([](auto& r) { r.damage = r.start; }), "dry run/damage");
  EXPECT_EQ(field([](auto& r) { r.second.density = kilograms_per_cubic_metre(0); }),
            "dry run/second/density");
  EXPECT_EQ(testing::refused_field([] { lump_temperature(given(), seconds(-1)); }), "time");
  EXPECT_EQ(
      testing::refused_field([] { dry_heat(testing::given_faces(), newtons(1), 3, radians_per_second(1)); }),
      "dry friction");
}

}  // namespace
}  // namespace pumpwright::seal

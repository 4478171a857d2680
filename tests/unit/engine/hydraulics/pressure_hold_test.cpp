#include <cmath>

#include <gtest/gtest.h>

#include "engine/fluid/water.h"
#include "engine/hydraulics/pressure_decay.h"
#include "engine/hydraulics/stored_energy.h"
#include "engine/hydraulics/test_pressure.h"
#include "tests/support/given_liquid.h"
#include "tests/support/refused.h"

namespace pumpwright::hydraulics {
namespace {

GaugePressure bar(double v) {
  return {pascals(v * 1e5)};
}

const std::vector<RatedPart> strong{{"casing", bar(100)}};

TEST(TestPressure, TheGreaterOfTheTwoRatedFiguresCounts) {
  HoldBasis basis;
  basis.rated = bar(4);
  basis.shutoff = bar(5);
  EXPECT_NEAR(test_pressure(HoldRule::rated_and_shutoff, basis, strong).used.value.value(), 6.25e5, 1e-6);
  basis.shutoff = bar(4.5);
  EXPECT_NEAR(test_pressure(HoldRule::rated_and_shutoff, basis, strong).used.value.value(), 6e5, 1e-6);
}

TEST(TestPressure, NeverAboveTheWeakestPart) {
  HoldBasis basis;
  basis.mawp = bar(10);
  const auto t =
      test_pressure(HoldRule::mawp_150, basis, {{"casing", bar(16)}, {"seal", bar(12)}, {"flange", bar(14)}});
  EXPECT_NEAR(t.by_rule.value.value(), 15e5, 1e-6);
  EXPECT_NEAR(t.used.value.value(), 12e5, 1e-6);
  EXPECT_EQ(t.limited_by, "seal");
  EXPECT_EQ(test_pressure(HoldRule::mawp_150, basis, {{"casing", bar(15)}}).limited_by, "");
}

TEST(TestPressure, WhatARuleNeedsIsAskedForByName) {
  const auto refused = [](HoldRule rule, const std::vector<RatedPart>& parts) {
    return testing::refused_field([&] { (void)test_pressure(rule, {}, parts); });
  };
  EXPECT_EQ(refused(HoldRule::rated_and_shutoff, strong), "rated");
  EXPECT_EQ(refused(HoldRule::mawp_150, strong), "mawp");
  EXPECT_EQ(refused(HoldRule::own, strong), "own");
  HoldBasis basis;
  basis.own = bar(3);
  EXPECT_EQ(testing::refused_field([&] { (void)test_pressure(HoldRule::own, basis, {}); }), "parts");
  EXPECT_EQ(testing::refused_field([&] {
              (void)test_pressure(HoldRule::own, basis, {{"x", bar(0)}});
            }),
            "rating");
}

TEST(HoldTime, RememberedMinutesSaySo) {
  EXPECT_EQ(hold_time(HoldRule::rated_and_shutoff, watts(70e3)).least.value(), 180);
  EXPECT_EQ(hold_time(HoldRule::rated_and_shutoff, watts(80e3)).least.value(), 600);
  EXPECT_EQ(hold_time(HoldRule::rated_and_shutoff, {}).known, HowKnown::remembered);
  EXPECT_EQ(hold_time(HoldRule::mawp_150, {}).known, HowKnown::read);
}

HoldTest hold(double from_bar, double to_bar, double warmer_k = 0) {
  HoldTest t;
  t.start = {bar(from_bar), kelvin(293.15)};
  t.end = {bar(to_bar), kelvin(293.15 + warmer_k)};
  t.held = seconds(600);
  t.volume = cubic_metres(0.005);
  t.atmosphere = {pascals(1e5)};
  return t;
}

LiquidMedium stiff() {
  LiquidMedium m;
  m.bulk_modulus = pascals(2e9);
  m.expansion_per_k = 2e-4;
  m.bulk_modulus_u = m.expansion_u = 0;
  return m;
}

// V Δp/K = 0.005 · 1e5/2e9 = 2.5e-7 m³ in 600 s.
TEST(LiquidLeak, WithoutHeatTheDropIsTheLeak) {
  const auto f = liquid_leak(hold(10, 9), stiff());
  EXPECT_NEAR(f.leak_m3_s.value, 2.5e-7 / 600, 1e-18);
  EXPECT_NEAR(f.drop_by_leak_pa.value, 1e5, 1e-6);
  EXPECT_EQ(f.leak_m3_s.u, 0);
}

// β K = 4e5 Pa/K: a quarter of a kelvin of cooling drops the gauge by 1 bar and hides no leak.
TEST(LiquidLeak, CoolingIsNoLeak) {
  const auto f = liquid_leak(hold(10, 9, -0.25), stiff());
  EXPECT_NEAR(f.leak_m3_s.value, 0, 1e-18);
  EXPECT_NEAR(f.drop_by_heat_pa.value, 1e5, 1e-6);
}

TEST(LiquidLeak, TheVesselExpandsToo) {
  LiquidMedium m = stiff();
  m.vessel_expansion_per_k = 2e-4;
  EXPECT_NEAR(liquid_leak(hold(10, 9, -0.25), m).drop_by_heat_pa.value, 0, 1e-9);
  m.vessel_give_m3_pa = 2.5e-12;  // doubles the compliance
  EXPECT_NEAR(liquid_leak(hold(10, 9), m).leak_m3_s.value, 5e-7 / 600, 1e-18);
}

// 10 mL of air at 1 bar: 10 (1/10 - 1/11) mL given back between 10 and 9 bar of gauge.
TEST(LiquidLeak, TrappedAirFeedsTheGauge) {
  LiquidMedium m = stiff();
  m.trapped_air = cubic_metres(10e-6);
  EXPECT_NEAR(liquid_leak(hold(10, 9), m).leak_m3_s.value, (2.5e-7 + 10e-6 * (1.0 / 10 - 1.0 / 11)) / 600,
              1e-16);
}

// u of a temperature step of 0.1 K each: V β 0.1 √2 / t.
TEST(LiquidLeak, TemperatureCarriesMostOfTheDoubt) {
  HoldTest t = hold(10, 10);
  t.temperature_u = kelvin_step(0.1);
  EXPECT_NEAR(liquid_leak(t, stiff()).leak_m3_s.u, 0.005 * 2e-4 * 0.1 * std::sqrt(2.0) / 600, 1e-16);
}

TEST(GasLeak, AFallInTemperatureIsNoLeak) {
  HoldTest t = hold(4, 4);
  const double p1 = 5e5;
  t.end.temperature = kelvin(292.15);
  t.end.pressure = {pascals(p1 * 292.15 / 293.15 - 1e5)};
  EXPECT_NEAR(gas_leak(t).leak_m3_s.value, 0, 1e-18);
  EXPECT_GT(gas_leak(t).drop_pa.value, 1000);
}

TEST(PressureDecay, WhatLiesOutsideItsRangeIsNamed) {
  const auto refused = [](auto change) {
    HoldTest t = hold(10, 9);
    LiquidMedium m = stiff();
    change(t, m);
    return testing::refused_field([&] { (void)liquid_leak(t, m); });
  };
  EXPECT_EQ(refused([](HoldTest& t, LiquidMedium&) { t.held = seconds(0); }), "held");
  EXPECT_EQ(refused([](HoldTest& t, LiquidMedium&) { t.volume = cubic_metres(0); }), "volume");
  EXPECT_EQ(refused([](HoldTest& t, LiquidMedium&) { t.end.pressure = bar(-1); }), "pressure");
  EXPECT_EQ(refused([](HoldTest&, LiquidMedium& m) { m.bulk_modulus = pascals(0); }), "bulk_modulus");
  EXPECT_EQ(refused([](HoldTest&, LiquidMedium& m) { m.trapped_air = cubic_metres(1); }), "trapped_air");
}

TEST(ElasticityOf, ALiquidWithoutPressureDependenceHasNoModulus) {
  const testing::GivenLiquid liquid;
  const auto e = elasticity_of(liquid, kelvin(293.15), {pascals(1e6)});
  EXPECT_FALSE(e.bulk_modulus);
  EXPECT_EQ(e.expansion_per_k, 0);
}

TEST(StoredEnergy, GasHoldsFarMoreThanLiquid) {
  const double liquid_j = stored_in_liquid(bar(10), cubic_metres(0.005), pascals(2.2e9)).value();
  EXPECT_NEAR(liquid_j, 1e12 * 0.005 / 4.4e9, 1e-9);
  const double gas_j = stored_in_gas(bar(10), cubic_metres(0.005), {pascals(1e5)}).value();
  EXPECT_NEAR(gas_j, 11e5 * 0.005 / 0.4 * (1 - std::pow(1 / 11.0, 0.4 / 1.4)), 1e-6);
  EXPECT_GT(gas_j / liquid_j, 1000);
}

}  // namespace
}  // namespace pumpwright::hydraulics

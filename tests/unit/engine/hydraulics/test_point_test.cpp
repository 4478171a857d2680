#include "engine/hydraulics/test_point.h"

#include <gtest/gtest.h>

#include "tests/support/given_pump.h"
#include "tests/support/refused.h"

namespace pumpwright::hydraulics {
namespace {

using testing::given_point;
using testing::given_rig;
using testing::rpm;

const testing::GivenLiquid liquid;

// 0.01 m³/s: 1.9894 m/s in 80 mm (0.20180 m), 3.0136 m/s in 65 mm (0.46305 m). Gauges: 3 bar over 0.2 bar of
// vacuum is 32.6309 m; the discharge gauge stands 0.7 m higher.
TEST(TestPoint, TotalHeadHasPressureHeightAndVelocity) {
  TestPoint p = given_point(0.01, 0, 1000);
  p.suction = {pascals(-20e3)};
  p.discharge = {pascals(300e3)};
  EXPECT_NEAR(result_of(p, given_rig(), liquid).head.value(), 32.63092 + 0.7 + 0.46305 - 0.20180, 2e-5);
}

// 81325 Pa absolute less 2338 Pa or so of vapour, plus the gauge's height and the velocity head.
TEST(TestPoint, SuctionHeadIsOverTheVapourPressure) {
  const PointResult r = result_of(given_point(0.01, 30, 1000), given_rig(), liquid);
  const double vapour_pa = liquid.saturation_pressure(kelvin(293.15)).value.value();
  EXPECT_NEAR(r.suction_head.value(), (81325 - vapour_pa) / 9806.65 + 0.2 + 0.20180, 2e-5);
}

TEST(TestPoint, EveryWayOfMeasuringPowerGivesTheSame) {
  TestRig rig = given_rig();
  rig.motor_efficiency = 0.9;
  TestPoint p = given_point(0.01, 30, 5000);
  const double efficiency = *result_of(p, rig, liquid).efficiency;
  EXPECT_NEAR(efficiency, 9806.65 * 0.01 * 30 / 5000, 1e-12);
  p.shaft_power.reset();
  p.torque = newton_metres(5000 / (2900 * rpm));
  EXPECT_NEAR(*result_of(p, rig, liquid).efficiency, efficiency, 1e-12);
  p.torque.reset();
  p.input_power = watts(5000 / 0.9);
  EXPECT_NEAR(*result_of(p, rig, liquid).efficiency, efficiency, 1e-12);
  EXPECT_NEAR(*result_of(p, rig, liquid).overall, 0.9 * efficiency, 1e-12);
  p.input_power.reset();
  p.supply =
      SupplyReading{Voltage::from_value(400), Current::from_value(10), 5000 / 0.9 / (4000 * std::sqrt(3.0))};
  EXPECT_NEAR(*result_of(p, rig, liquid).efficiency, efficiency, 1e-12);
}

TEST(TestPoint, InputPowerWithoutTheMotorsEfficiencyGivesOnlyTheOverallFigure) {
  TestPoint p = given_point(0.01, 30, 5000);
  p.shaft_power.reset();
  p.input_power = watts(6000);
  const PointResult r = result_of(p, given_rig(), liquid);
  EXPECT_FALSE(r.shaft);
  EXPECT_FALSE(r.efficiency);
  EXPECT_NEAR(*r.overall, 9806.65 * 0.01 * 30 / 6000, 1e-12);
}

TEST(TestPoint, WhatLiesOutsideItsRangeIsNamed) {
  const auto refused = [&](auto change) {
    TestPoint p = given_point(0.01, 30, 1000);
    TestRig rig = given_rig();
    change(p, rig);
    return testing::refused_field([&] { (void)result_of(p, rig, liquid); });
  };
  EXPECT_EQ(refused([](TestPoint& p, TestRig&) { p.flow = cubic_metres_per_second(-1e-6); }), "flow");
  EXPECT_EQ(refused([](TestPoint& p, TestRig&) { p.suction = {pascals(-101'400)}; }), "pressure");
  EXPECT_EQ(refused([](TestPoint& p, TestRig&) { p.speed = radians_per_second(0); }), "speed");
  EXPECT_EQ(refused([](TestPoint& p, TestRig&) { p.torque = newton_metres(1); }), "power");
  EXPECT_EQ(refused([](TestPoint& p, TestRig&) { p.shaft_power = watts(0); }), "power");
  EXPECT_EQ(refused([](TestPoint&, TestRig& r) { r.suction_bore = metres(0); }), "bore");
  EXPECT_EQ(refused([](TestPoint&, TestRig& r) { r.discharge_height = metres(101); }), "height");
  EXPECT_EQ(refused([](TestPoint&, TestRig& r) { r.atmosphere = {pascals(0)}; }), "atmosphere");
  EXPECT_EQ(refused([](TestPoint&, TestRig& r) { r.motor_efficiency = 1.01; }), "motor efficiency");
}

TEST(TestPoint, AGaugeInVacuumIsHeldAgainstTheAirOfItsPlace) {
  TestRig high = given_rig();
  high.atmosphere = {pascals(79'500)};
  TestPoint p = given_point(0.01, 30, 1000);
  p.suction = {pascals(-79'600)};
  EXPECT_EQ(testing::refused_field([&] { (void)result_of(p, high, liquid); }), "pressure");
}

}  // namespace
}  // namespace pumpwright::hydraulics

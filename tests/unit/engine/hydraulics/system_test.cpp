#include <cmath>

#include <gtest/gtest.h>

#include "engine/hydraulics/motor_load.h"
#include "engine/hydraulics/operating_point.h"
#include "engine/hydraulics/viscosity_correction.h"
#include "tests/support/given_pump.h"
#include "tests/support/refused.h"

namespace pumpwright::hydraulics {
namespace {

using testing::rpm;

// H = 40 m - 1e5 Q², to 0.02 m³/s.
FlowCurve pump() {
  std::vector<double> q, h;
  for (int i = 0; i <= 10; ++i) {
    q.push_back(0.002 * i);
    h.push_back(40 - 1e5 * q.back() * q.back());
  }
  return FlowCurve::through(q, h, {CurveKind::polynomial, 2});
}

// 10 m of height and fittings that take k Q²: one bore, no length.
Plant plant(double k_per_m3s2) {
  Plant p;
  p.static_head = metres(10);
  const double area = pi / 4 * 0.1 * 0.1;
  p.pipes = {{metres(0), metres(0.1), metres(0), k_per_m3s2 * 2 * 9.80665 * area * area}};
  p.viscosity = square_metres_per_second(1e-6);
  return p;
}

TEST(PipeLoss, LaminarFlowIsPoiseuilles) {
  EXPECT_NEAR(friction_factor(1000, 0.01), 0.064, 1e-15);
  const Pipe pipe{metres(10), metres(0.02), metres(0), 0};
  // v = 0.0318 m/s, ν 1e-5: Re 63.7; h = 32 ν L v/(g d²)
  const auto loss = pipe_loss(pipe, cubic_metres_per_second(1e-5), square_metres_per_second(1e-5));
  const double v = 1e-5 / (pi / 4 * 4e-4);
  EXPECT_NEAR(loss.head.value(), 32 * 1e-5 * 10 * v / (9.80665 * 4e-4), 1e-12);
  EXPECT_FALSE(loss.transitional);
}

TEST(PipeLoss, BetweenTheTwoRegimesItSaysSoAndStaysBetween) {
  const double low = friction_factor(2300, 1e-4), high = friction_factor(4000, 1e-4);
  EXPECT_NEAR(friction_factor(3150, 1e-4), (low + high) / 2, 1e-12);
  const Pipe pipe{metres(10), metres(0.02), metres(0), 0};
  EXPECT_TRUE(pipe_loss(pipe, cubic_metres_per_second(4.7e-5), square_metres_per_second(1e-6)).transitional);
  EXPECT_EQ(pipe_loss(pipe, cubic_metres_per_second(0), square_metres_per_second(1e-6)).head.value(), 0);
}

TEST(PipeLoss, WhatLiesOutsideItsRangeIsNamed) {
  EXPECT_EQ(testing::refused_field([] { (void)friction_factor(0, 0); }), "reynolds");
  EXPECT_EQ(testing::refused_field([] { (void)friction_factor(1e5, 0.2); }), "roughness");
  const Pipe bad{metres(1), metres(0), metres(0), 0};
  EXPECT_EQ(testing::refused_field(
                [&] { (void)pipe_loss(bad, cubic_metres_per_second(1), square_metres_per_second(1e-6)); }),
            "bore");
}

// 40 - 1e5 Q² = 10 + 2e5 Q²: Q = 0.01.
TEST(OperatingPoint, OnePumpMeetsItsPlant) {
  const auto p = operating_point({pump()}, plant(2e5));
  EXPECT_EQ(p.meeting, Meeting::found);
  EXPECT_NEAR(p.flow_m3_s, 0.01, 1e-12);
  EXPECT_NEAR(p.head_m, 30, 1e-9);
}

// Two in parallel: 40 - 2.5e4 Q² = 10 + 2e5 Q². Two in series: 80 - 2e5 Q² = 10 + 2e5 Q².
TEST(OperatingPoint, TwoPumpsGiveLessThanTwice) {
  EXPECT_NEAR(operating_point({pump(), 2, 1, 1}, plant(2e5)).flow_m3_s, std::sqrt(30 / 2.25e5), 1e-12);
  EXPECT_NEAR(operating_point({pump(), 1, 2, 1}, plant(2e5)).flow_m3_s, std::sqrt(70 / 4e5), 1e-12);
}

// 0.81·40 - 1e5 Q² = 10 + 2e5 Q².
TEST(OperatingPoint, SlowerIsLess) {
  EXPECT_NEAR(operating_point({pump(), 1, 1, 0.9}, plant(2e5)).flow_m3_s, std::sqrt((32.4 - 10) / 3e5),
              1e-12);
}

TEST(OperatingPoint, SaysWhenTheCurvesDoNotMeet) {
  Plant high = plant(2e5);
  high.static_head = metres(50);
  EXPECT_EQ(operating_point({pump()}, high).meeting, Meeting::plant_too_high);
  Plant open = plant(0);
  open.static_head = metres(-5);
  EXPECT_EQ(operating_point({pump()}, open).meeting, Meeting::beyond_runout);
}

TEST(OperatingPoint, ThrottleAndSpeedReachTheSameFlow) {
  const PumpGroup one{pump()};
  // at 0.008: 40 - 6.4 - (10 + 12.8)
  EXPECT_NEAR(throttled_head_m(one, plant(2e5), 0.008), 10.8, 1e-9);
  // 40 k² - 6.4 = 22.8
  EXPECT_NEAR(*speed_for_flow(one, plant(2e5), 0.008), std::sqrt(29.2 / 40), 1e-9);
  EXPECT_FALSE(speed_for_flow(one, plant(2e5), 0.018));
}

TEST(OperatingPoint, AMeasuredPlantIsNotExtrapolated) {
  Plant p;
  const std::vector<double> q{0, 0.005, 0.009}, h{10, 15, 26.2};
  p.measured = FlowCurve::through(q, h, {CurveKind::pchip, 0});
  EXPECT_EQ(operating_point({pump()}, p).meeting, Meeting::beyond_runout);
  EXPECT_EQ(testing::refused_field([&] { (void)plant_head_m(p, 0.01); }), "flow");
  EXPECT_EQ(testing::refused_field([&] { (void)operating_point({pump(), 0, 1, 1}, p); }), "parallel");
  EXPECT_EQ(testing::refused_field([&] { (void)operating_point({pump(), 1, 1, 1.4}, p); }), "speed");
}

TEST(ViscosityFactors, ThinLiquidsNeedNone) {
  const WaterBest best{cubic_metres_per_second(110 / 3600.0), metres(77), radians_per_second(2950 * rpm)};
  const auto f = viscosity_factors(best, square_metres_per_second(1e-6));
  EXPECT_LE(f.b, 1);
  EXPECT_EQ(f.flow, 1);
  EXPECT_EQ(f.efficiency, 1);
  EXPECT_EQ(f.head_at(0.5), 1);
}

TEST(ViscosityFactors, SaysWhichOfItsDatasRangesAreLeft) {
  const WaterBest small{cubic_metres_per_second(2 / 3600.0), metres(4), radians_per_second(2950 * rpm)};
  EXPECT_EQ(viscosity_factors(small, square_metres_per_second(20e-6)).outside,
            (std::vector<std::string>{"flow", "head"}));
  EXPECT_EQ(
      testing::refused_field([&] { (void)viscosity_factors(small, square_metres_per_second(3999e-6)); }),
      "viscosity");
  EXPECT_EQ(
      testing::refused_field([&] { (void)viscosity_factors(small, square_metres_per_second(4001e-6)); }),
      "viscosity");
}

TEST(MotorLoad, OutOfRangeIsNamed) {
  const auto r = [](double v) { return radians_per_second(v * rpm); };
  const auto a = [](double v) { return Current::from_value(v); };
  const auto v = [](double x) { return Voltage::from_value(x); };
  EXPECT_EQ(testing::refused_field([&] { (void)load_by_slip(r(1800), r(1810), r(1750)); }), "speed");
  EXPECT_EQ(testing::refused_field([&] { (void)load_by_slip(r(1800), r(1790), r(1800)); }), "speed");
  EXPECT_EQ(testing::refused_field([&] { (void)load_by_current(a(10), a(20), a(20)); }), "no_load_current");
  EXPECT_EQ(testing::refused_field([&] { (void)load_by_power(watts(1), watts(0), 0.9); }), "rated_power");
  EXPECT_EQ(testing::refused_field([&] { (void)unbalance_derating(-0.001); }), "voltage_unbalance");
  EXPECT_EQ(unbalance_derating(0.08), 0.75);  // held; the caller says it is not to be run
  EXPECT_EQ(testing::refused_field([&] { (void)voltage_unbalance({v(0), v(1), v(1)}); }), "voltage");
  EXPECT_EQ(unbalance_derating(0.05), 0.75);
  EXPECT_EQ(unbalance_derating(0.005), 1);
}

}  // namespace
}  // namespace pumpwright::hydraulics

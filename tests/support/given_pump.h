// A pump whose curves a test states itself, tested on a rig whose gauges read exactly what they must.
#pragma once

#include <cmath>
#include <memory>
#include <vector>

#include "engine/hydraulics/performance_test.h"
#include "tests/support/given_liquid.h"

namespace pumpwright::testing {

constexpr double rpm = pi / 30;                // [rad/s]
constexpr double given_weight_n_m3 = 9806.65;  // of the given liquid

// H = 40 m - 1e5 Q², P = 2000 W + 2e5 Q, at 2900 r/min; flows 0 to 0.012 m³/s.
inline double given_head_m(double q) {
  return 40 - 1e5 * q * q;
}
inline double given_power_w(double q) {
  return 2000 + 2e5 * q;
}

inline hydraulics::TestRig given_rig() {
  hydraulics::TestRig rig;
  rig.suction_height = metres(0.2);
  rig.discharge_height = metres(0.9);
  rig.suction_bore = metres(0.080);
  rig.discharge_bore = metres(0.065);
  rig.atmosphere = {pascals(101325)};
  return rig;
}

// What the gauges read at a flow when the pump gives `head_m`; suction 0.2 bar under the atmosphere.
inline hydraulics::TestPoint given_point(double flow_m3_s, double head_m, double power_w) {
  const hydraulics::TestRig rig = given_rig();
  const auto velocity_head_m = [&](Length bore) {
    const double v = flow_m3_s / (pi / 4 * bore.value() * bore.value());
    return v * v / (2 * 9.80665);
  };
  hydraulics::TestPoint p;
  p.flow = cubic_metres_per_second(flow_m3_s);
  p.suction = {pascals(-20e3)};
  const double gauge_head_m =
      head_m - 0.7 - velocity_head_m(rig.discharge_bore) + velocity_head_m(rig.suction_bore);
  p.discharge = {p.suction.value + pascals(gauge_head_m * given_weight_n_m3)};
  p.speed = radians_per_second(2900 * rpm);
  p.temperature = kelvin(293.15);
  p.shaft_power = watts(power_w);
  return p;
}

// Nine points without any error, each with heads `head_scale` times the pump's.
inline hydraulics::PerformanceTest given_test(double head_scale = 1) {
  hydraulics::PerformanceTest test;
  test.rig = given_rig();
  for (int i = 0; i <= 8; ++i) {
    const double q = 0.0015 * i;
    test.points.push_back(given_point(q, head_scale * given_head_m(q), given_power_w(q)));
  }
  test.liquid = std::make_shared<GivenLiquid>();
  test.rated_speed = radians_per_second(2900 * rpm);
  test.head_curve = {hydraulics::CurveKind::polynomial, 2};
  test.power_curve = {hydraulics::CurveKind::polynomial, 1};
  return test;
}

// The same with instruments of a bench: 1 % flow meter, gauges of 0.5 % of 6 bar, 0.2 % speed, 1.5 % power.
inline hydraulics::PerformanceTest measured_test(double head_scale = 1) {
  auto test = given_test(head_scale);
  test.meters.flow = {"flow-meter", 0.01, 0, 0};
  test.meters.suction = {"suction-gauge", 0, 500, 500};
  test.meters.discharge = {"discharge-gauge", 0, 3000, 1000};
  test.meters.speed = {"tachometer", 0.002, 0, 0};
  test.meters.power = {"wattmeter", 0.015, 0, 10};
  return test;
}

}  // namespace pumpwright::testing

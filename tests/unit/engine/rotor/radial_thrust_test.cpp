#include "engine/rotor/radial_thrust.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

ThrustCase given() {
  return {{0.1, 0.2, 0.3, "given"}, metres(30), kilograms_per_cubic_metre(1000), metres(0.2), metres(0.02)};
}

TEST(RadialThrust, IsFactorTimesPressureTimesProjectedOutlet) {
  const RadialThrust f = radial_thrust(given());
  EXPECT_NEAR(f.expected.value(), 0.2 * 1000 * 9.80665 * 30 * 0.004, 1e-9);
  EXPECT_NEAR(f.least / f.expected, 0.5, 1e-12);
  EXPECT_NEAR(f.most / f.expected, 1.5, 1e-12);
}

TEST(RadialThrust, ASingleVoluteIsWorstAtNoFlowAndBestNearBestEfficiency) {
  const RadialFactor shut = single_volute_factor(0);
  EXPECT_EQ(shut.least, 0.15);
  EXPECT_EQ(shut.expected, 0.36);
  EXPECT_EQ(shut.most, 0.38);
  const RadialFactor best = single_volute_factor(1);
  EXPECT_EQ(best.least, 0);
  EXPECT_EQ(best.expected, 0.03);
  EXPECT_EQ(best.most, 0.06);
  EXPECT_GT(single_volute_factor(1.2).most, best.most);
  EXPECT_FALSE(best.source.empty());
}

TEST(RadialThrust, TheRangeIsInOrderAtEveryFlow) {
  for (double q = 0; q <= 1.2; q += 0.01) {
    const RadialFactor k = single_volute_factor(q);
    EXPECT_LE(k.least, k.expected) << q;
    EXPECT_LE(k.expected, k.most) << q;
  }
}

TEST(RadialThrust, WhatIsOutOfRangeIsNamed) {
  EXPECT_EQ(testing::refused_field([] { single_volute_factor(1.21); }), "operating_point/flow_ratio");
  EXPECT_EQ(testing::refused_field([] { single_volute_factor(-0.1); }), "operating_point/flow_ratio");
  const auto field = [](auto change) {
    ThrustCase pump = given();
    change(pump);
    return testing::refused_field([&] { radial_thrust(pump); });
  };
  EXPECT_EQ(field([](auto& p) { p.head = metres(-1); }), "operating_point/head");
  EXPECT_EQ(field([](auto& p) { p.density = kilograms_per_cubic_metre(1); }), "operating_point/density");
  EXPECT_EQ(field([](auto& p) { p.outlet_diameter = metres(0); }), "impeller/outlet_diameter");
  EXPECT_EQ(field([](auto& p) { p.outlet_width = metres(0); }), "impeller/outlet_width");
  EXPECT_EQ(field([](auto& p) { p.factor.least = -1; }), "operating_point/radial_factor/least");
  EXPECT_EQ(field([](auto& p) { p.factor.most = 0.05; }), "operating_point/radial_factor/most");
  EXPECT_EQ(field([](auto& p) { p.factor.expected = 0.4; }), "operating_point/radial_factor/expected");
}

}  // namespace
}  // namespace pumpwright::rotor

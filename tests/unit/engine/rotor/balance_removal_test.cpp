#include "engine/rotor/balance_removal.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

using testing::refused_field;

Drill drill(DrillDirection direction = DrillDirection::axial) {
  Drill d;
  d.direction = direction;
  d.radius = metres(0.08);
  d.diameter = metres(0.01);
  d.point = degrees(90);
  d.density = kilograms_per_cubic_metre(7200);
  d.most_depth = metres(0.02);
  return d;
}

// 90° point: the cone is as high as the drill's radius, 5 mm; its volume π/3·125 mm³.
TEST(BalanceRemoval, AHoleIsACylinderWithAConeBelow) {
  const double volume_m3 = (pi * 25 * 10 + pi / 3 * 125) * 1e-9;
  EXPECT_NEAR(drilled_out(drill(), metres(0.015)).value(), 7200 * volume_m3 * 0.08, 1e-15);
  const auto hole = hole_for(drill(), kilogram_metres(7200 * volume_m3 * 0.08));
  ASSERT_TRUE(hole);
  EXPECT_NEAR(hole->to_tip.value(), 0.015, 1e-12);
  EXPECT_NEAR(hole->to_full_diameter.value(), 0.010, 1e-12);
  EXPECT_NEAR(hole->taken_out.value(), 7200 * volume_m3, 1e-12);
}

TEST(BalanceRemoval, AHoleIntoTheRimMovesInwardsAsItDeepens) {
  const double cylinder = pi * 25 * 10 * 1e-9 * (0.08 - 0.005);
  const double cone = pi / 3 * 125 * 1e-9 * (0.08 - 0.010 - 0.005 / 4);
  EXPECT_NEAR(drilled_out(drill(DrillDirection::radial), metres(0.015)).value(), 7200 * (cylinder + cone),
              1e-15);
}

TEST(BalanceRemoval, ASmallCorrectionIsDoneByThePointAlone) {
  const auto hole = hole_for(drill(), drilled_out(drill(), metres(0.003)));
  ASSERT_TRUE(hole);
  EXPECT_NEAR(hole->to_tip.value(), 0.003, 1e-12);
  EXPECT_EQ(hole->to_full_diameter.value(), 0);
}

TEST(BalanceRemoval, AFlatBottomedDrillHasNoCone) {
  Drill flat = drill();
  flat.point = degrees(180);
  EXPECT_NEAR(drilled_out(flat, metres(0.01)).value(), 7200 * pi * 25e-6 * 0.01 * 0.08, 1e-12);
}

TEST(BalanceRemoval, MoreHolesDoWhatOneCannot) {
  const Unbalance most = drilled_out(drill(), metres(0.02));
  EXPECT_FALSE(hole_for(drill(), 1.5 * most));
  EXPECT_FALSE(holes_for(drill(), 1.5 * most, degrees(0)));
  const auto holes = holes_for(drill(), 1.5 * most, degrees(10));
  ASSERT_TRUE(holes);
  EXPECT_EQ(holes->count, 2U);
  const double together = 2 * std::cos(5 * pi / 180) * drilled_out(drill(), holes->each.to_tip).value();
  EXPECT_NEAR(together, 1.5 * most.value(), 1e-12);
}

TEST(BalanceRemoval, APadTakesOutTheMomentOfItsSector) {
  Grind g{metres(0.09), metres(0.04), metres(0.01), kilograms_per_cubic_metre(7200), metres(0.002)};
  const auto pad = pad_for(g, kilogram_metres(100e-6));
  // Thin and short: depth ≈ U/(ρ length width radius), a little more because the ends pull sideways.
  const double plain = 100e-6 / (7200 * 0.04 * 0.01 * 0.09);
  EXPECT_NEAR(pad.depth.value() / plain, 1, 0.01);
  EXPECT_GT(pad.depth.value(), plain);
  EXPECT_TRUE(pad.reaches);
  EXPECT_NEAR(pad.taken_out.value(), 7200 * 0.04 * 0.01 * pad.depth.value(), 1e-12);
  EXPECT_FALSE(pad_for(g, kilogram_metres(1e-2)).reaches);
}

TEST(BalanceRemoval, WhatIsOutOfRangeIsRefused) {
  const Unbalance some = kilogram_metres(1e-6);
  Drill d = drill();
  d.point = degrees(30);
  EXPECT_EQ(refused_field([&] { (void)hole_for(d, some); }), "drill/point");
  d = drill(DrillDirection::radial);
  d.most_depth = metres(0.08);
  EXPECT_EQ(refused_field([&] { (void)hole_for(d, some); }), "drill/most_depth");
  d = drill();
  d.density = kilograms_per_cubic_metre(7.2);
  EXPECT_EQ(refused_field([&] { (void)hole_for(d, some); }), "drill/density");
  EXPECT_EQ(refused_field([&] { (void)holes_for(drill(), some, degrees(45)); }), "drill/spacing");
  EXPECT_EQ(refused_field([&] { (void)hole_for(drill(), kilogram_metres(-1)); }), "unbalance");
  EXPECT_EQ(refused_field([&] { (void)drilled_out(drill(), metres(0.021)); }), "drill/depth");
  Grind g{metres(0.09), metres(0.3), metres(0.01), kilograms_per_cubic_metre(7200), metres(0.002)};
  EXPECT_EQ(refused_field([&] { (void)pad_for(g, some); }), "grind/length");
  g.length = metres(0.01);
  g.width = metres(0.2);
  EXPECT_EQ(refused_field([&] { (void)pad_for(g, some); }), "grind/width");
}

}  // namespace
}  // namespace pumpwright::rotor

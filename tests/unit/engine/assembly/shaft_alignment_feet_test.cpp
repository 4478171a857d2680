#include "engine/assembly/shaft_alignment_feet.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::alignment {
namespace {

using testing::refused_field;

Feet feet(double front_m, double back_m) {
  return {metres(front_m), metres(back_m)};
}

TEST(ShaftAlignmentFeet, MovesTakeTheLineAway) {
  ShaftLine line{100e-6, 20e-6, 0.5e-3, -0.1e-3};
  const Feet moved = feet(0.2, 0.6);
  const auto moves = moves_for(line, metres(0), moved);
  EXPECT_NEAR(moves.front.raise.value(), -(100e-6 + 0.2 * 0.5e-3), 1e-15);
  EXPECT_NEAR(moves.back.raise.value(), -(100e-6 + 0.6 * 0.5e-3), 1e-15);
  EXPECT_NEAR(moves.front.push.value(), -(20e-6 - 0.2 * 0.1e-3), 1e-15);
  EXPECT_NEAR(moves.back.push.value(), -(20e-6 - 0.6 * 0.1e-3), 1e-15);
  EXPECT_FALSE(moves.front.raise_u);
  const auto after = line_after(line, metres(0), moved, moves.front, moves.back);
  EXPECT_NEAR(after.offset().value(), 0, 1e-15);
  EXPECT_NEAR(after.angularity().value(), 0, 1e-15);
}

TEST(ShaftAlignmentFeet, GrowthOfBothMachinesShiftsTheTarget) {
  Feet moved = feet(0.2, 0.6);
  moved.front_growth = moved.back_growth = metres(50e-6);
  Feet fixed = feet(-0.2, -0.6);
  fixed.front_growth = metres(80e-6);
  fixed.back_growth = metres(120e-6);
  const auto warm = warm_line({}, metres(0), moved, fixed);
  // The fixed shaft at the coupling: 80 less 0.2/0.4 · 40 = 60 µm, falling towards it by 0.1 mm/m.
  EXPECT_NEAR(warm.up_m, 50e-6 - 60e-6, 1e-15);
  EXPECT_NEAR(warm.up_slope, 0.1e-3, 1e-15);
  EXPECT_NEAR(warm_line({}, metres(0), moved, std::nullopt).up_m, 50e-6, 1e-15);
}

TEST(ShaftAlignmentFeet, AFootGoesAsFarAsItCan) {
  const FootMove wanted{metres(-300e-6), metres(700e-6), {}, {}};
  auto bound = within_room(wanted, {metres(200e-6), metres(500e-6)});
  EXPECT_TRUE(bound.base_bound);
  EXPECT_TRUE(bound.bolt_bound);
  EXPECT_NEAR(bound.move.raise.value(), -200e-6, 1e-15);
  EXPECT_NEAR(bound.move.push.value(), 500e-6, 1e-15);
  bound = within_room(wanted, {});
  EXPECT_FALSE(bound.base_bound || bound.bolt_bound);
  EXPECT_EQ(bound.move.raise, wanted.raise);
  EXPECT_NEAR(within_room({metres(0), metres(-1e-3), {}, {}}, {std::nullopt, metres(1e-4)}).move.push.value(),
              -1e-4, 1e-15);
}

TEST(ShaftAlignmentFeet, WhatIsOutOfRangeIsRefused) {
  EXPECT_EQ(refused_field([] { (void)moves_for({}, metres(0), feet(0.2, 0.2)); }), "feet");
  EXPECT_EQ(refused_field([] { (void)within_room({}, {metres(-1), {}}); }), "feet/shims_under");
  EXPECT_EQ(refused_field([] { (void)within_room({}, {{}, metres(-1)}); }), "feet/bolt_play");
  EXPECT_EQ(refused_field([] { (void)thermal_growth(per_kelvin(1), metres(1), kelvin_step(1)); }),
            "growth/expansion");
  EXPECT_EQ(refused_field([] { (void)thermal_growth(per_kelvin(1e-5), metres(-1), kelvin_step(1)); }),
            "growth/height");
  EXPECT_EQ(refused_field([] { (void)thermal_growth(per_kelvin(1e-5), metres(1), kelvin_step(2000)); }),
            "growth/rise");
}

}  // namespace
}  // namespace pumpwright::alignment

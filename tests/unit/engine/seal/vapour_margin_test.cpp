#include "engine/seal/vapour_margin.h"

#include <gtest/gtest.h>

#include "engine/seal/atmosphere.h"
#include "tests/support/given_liquid.h"
#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

const testing::GivenLiquid liquid;  // boils at 373.15 K under 101325 Pa

TEST(VapourMargin, TheFourClassesFollowTheirFigures) {
  const Temperature t = kelvin(373.15);
  const auto at = [&](double chamber_pa) { return vapour_margin(liquid, {pascals(chamber_pa)}, t); };
  EXPECT_EQ(at(101'000).margin, MarginClass::boils);
  EXPECT_EQ(at(110'000).margin, MarginClass::too_small);
  EXPECT_EQ(at(140'000).margin, MarginClass::by_ratio);
  EXPECT_EQ(at(450'000).margin, MarginClass::by_difference);
  EXPECT_FALSE(at(110'000).enough);
  EXPECT_TRUE(at(140'000).enough);
}

TEST(VapourMargin, AStricterRuleLetsOnlyTheDifferenceCount) {
  MarginRule strict;
  strict.ratio_suffices = false;
  EXPECT_FALSE(vapour_margin(liquid, {pascals(140'000)}, kelvin(373.15), strict).enough);
  EXPECT_TRUE(vapour_margin(liquid, {pascals(450'000)}, kelvin(373.15), strict).enough);
  EXPECT_NEAR(least_chamber_pressure(liquid, kelvin(373.15), strict).value.value(), 101'325 + 3.45e5, 1e-6);
}

TEST(VapourMargin, SaysHowFarTheBoilingPointIs) {
  const VapourMargin m = vapour_margin(liquid, {pascals(101'325)}, kelvin(353.15));
  EXPECT_NEAR(kelvin_of(m.boiling), 373.15, 1e-9);
  EXPECT_NEAR(m.to_boiling.value(), 20, 1e-9);
  EXPECT_NEAR(m.ratio, 101'325 / m.vapour.value.value(), 1e-12);
}

TEST(VapourMargin, ABoilingPointBeyondTheDataIsTheEndOfTheData) {
  EXPECT_EQ(kelvin_of(vapour_margin(liquid, {pascals(1e9)}, kelvin(353.15)).boiling), liquid.highest_k);
  EXPECT_EQ(kelvin_of(vapour_margin(liquid, {pascals(1)}, kelvin(353.15)).boiling), liquid.lowest_k);
}

TEST(VapourMargin, TheSuctionAskedForIsJustEnough) {
  const SuctionRequest pump{pascals(4e5), 0.1, metres(1600)};
  const Temperature t = kelvin(380);
  const GaugePressure suction = least_suction(least_chamber_pressure(liquid, t), pump);
  const auto enough = [&](double gauge_pa) {
    const double chamber_pa = absolute_at({pascals(gauge_pa)}, pump.altitude).value.value() + 0.1 * 4e5;
    return vapour_margin(liquid, {pascals(chamber_pa)}, t).enough;
  };
  EXPECT_TRUE(enough(suction.value.value() + 1));
  EXPECT_FALSE(enough(suction.value.value() - 1));
}

TEST(VapourMargin, LessThanVacuumIsNotAskedFor) {
  const GaugePressure suction = least_suction({pascals(1000)}, {pascals(4e5), 0.5, metres(0)});
  EXPECT_NEAR(suction.value.value(), -101'325, 1e-6);
}

TEST(VapourMargin, ImpossibleInputsAreNamed) {
  EXPECT_EQ(testing::refused_field([] { vapour_margin(liquid, {pascals(0)}, kelvin(353.15)); }),
            "chamber pressure");
  MarginRule rule;
  rule.least_ratio = 0.5;
  EXPECT_EQ(testing::refused_field([&] { vapour_margin(liquid, {pascals(1e5)}, kelvin(353.15), rule); }),
            "margin rule/ratio");
  EXPECT_EQ(testing::refused_field([] {
              least_suction({pascals(1e5)}, {pascals(1e5), 2, metres(0)});
            }),
            "chamber share");
}

}  // namespace
}  // namespace pumpwright::seal

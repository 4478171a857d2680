#include "engine/seal/chamber_pressure.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

constexpr ImpellerBack all_backs[] = {ImpellerBack::plain, ImpellerBack::balance_holes,
                                      ImpellerBack::back_vanes, ImpellerBack::wear_ring_removed,
                                      ImpellerBack::double_suction};

TEST(ChamberPressure, EveryBackGivesAnOrderedRangeWithItsSource) {
  for (const ImpellerBack back : all_backs) {
    const ChamberShare share = chamber_share(back);
    EXPECT_LE(0, share.low);
    EXPECT_LE(share.low, share.expected);
    EXPECT_LE(share.expected, share.high);
    EXPECT_LE(share.high, 1);
    EXPECT_FALSE(share.source.empty());
  }
}

TEST(ChamberPressure, WhatNoSourceSaysIsNotCalledRead) {
  EXPECT_EQ(chamber_share(ImpellerBack::plain).how, HowKnown::remembered);
  EXPECT_EQ(chamber_share(ImpellerBack::balance_holes).how, HowKnown::read);
}

TEST(ChamberPressure, HolesLowerItAndATrimmedVaneRaisesIt) {
  const GaugePressure suction{pascals(1e5)};
  const auto expected = [&](ImpellerBack back, double trim) {
    return chamber_pressure(suction, pascals(5e5), chamber_share(back, trim)).expected.value.value();
  };
  EXPECT_LT(expected(ImpellerBack::balance_holes, 0), expected(ImpellerBack::plain, 0));
  EXPECT_LT(expected(ImpellerBack::back_vanes, 0), expected(ImpellerBack::back_vanes, 1));
  EXPECT_NEAR(expected(ImpellerBack::wear_ring_removed, 0), 6e5, 1e-6);
  EXPECT_NEAR(expected(ImpellerBack::double_suction, 0), 1e5, 1e-6);
}

TEST(ChamberPressure, HeadBecomesPressure) {
  EXPECT_NEAR(pressure_of_head(metres(10), kilograms_per_cubic_metre(1000)).value(), 98066.5, 1e-6);
}

TEST(ChamberPressure, ImpossibleInputsAreNamed) {
  const ChamberShare share = chamber_share(ImpellerBack::plain);
  EXPECT_EQ(testing::refused_field([] { chamber_share(ImpellerBack::back_vanes, 1.5); }), "trim");
  EXPECT_EQ(testing::refused_field([&] { chamber_pressure({pascals(0)}, pascals(-1), share); }),
            "pressure rise");
  EXPECT_EQ(testing::refused_field([&] { chamber_pressure({pascals(-2e5)}, pascals(1), share); }),
            "suction pressure");
}

}  // namespace
}  // namespace pumpwright::seal

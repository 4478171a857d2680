#include "engine/seal/working_length.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

LengthPart part(const char* name, double coefficient, double nominal_mm, double measured_mm,
                bool shim = false) {
  LengthPart p;
  p.drawing.name = name;
  p.drawing.coefficient = coefficient;
  p.drawing.nominal = metres(nominal_mm / 1000);
  p.drawing.lower_deviation = metres(-0.1e-3);
  p.drawing.upper_deviation = metres(0.1e-3);
  p.measured = Measured<Length>{metres(measured_mm / 1000), metres(0.02e-3)};
  p.is_shim = shim;
  return p;
}

// 60 + 2 - 24.5 = 37.5 mm as drawn.
WorkingLengthCase given() {
  WorkingLengthCase c;
  c.parts = {part("seat depth", -1, 24.5, 24.52), part("sleeve shoulder", 1, 60, 60.03),
             part("shim", 1, 2, 2.0, true)};
  c.required = metres(0.0375);
  c.lower_tolerance = metres(-0.5e-3);
  c.upper_tolerance = metres(0.5e-3);
  c.spring = spring_of_nominal({metres(0.0275), metres(0)}, {newtons(90), newtons(2)},
                               {newtons_per_metre(8000), newtons_per_metre(200)});
  c.rigid = metres(0.010);
  return c;
}

TEST(WorkingLength, AStackAsDrawnPassesAndGetsNoCorrection) {
  const WorkingLength w = working_length(given());
  EXPECT_NEAR(w.installed.value.value(), 0.03751, 1e-9);
  EXPECT_NEAR(w.installed.u.value(), 0.02e-3 * std::sqrt(3), 1e-9);
  EXPECT_EQ(w.verdict.outcome, Outcome::pass);
  EXPECT_FALSE(w.correction);
  EXPECT_NEAR(w.spring.force.value.value(), 90 - 8000 * 0.01e-3, 1e-6);
  EXPECT_NEAR(w.as_required.force.value.value(), 90, 1e-9);
}

TEST(WorkingLength, OneAndAHalfMillimetresShortNamesTheThinShim) {
  WorkingLengthCase c = given();
  c.parts[2] = part("shim", 1, 2, 0.5, true);
  const WorkingLength w = working_length(c);
  EXPECT_EQ(w.verdict.outcome, Outcome::fail);
  ASSERT_TRUE(w.correction);
  EXPECT_EQ(w.correction->part, "shim");
  EXPECT_NEAR(w.correction->part_deviation.value(), -1.5e-3, 1e-12);
  EXPECT_NEAR(w.correction->change.value(), 1.49e-3, 1e-9);
  EXPECT_EQ(w.correction->shim, "shim");
  EXPECT_NEAR(w.correction->shim_change.value(), 1.49e-3, 1e-9);
  EXPECT_FALSE(w.correction->part_missing);
  EXPECT_TRUE(w.correction->others.empty());
  EXPECT_GT(w.spring.force.value, w.as_required.force.value);
}

TEST(WorkingLength, AShimLeftOutIsMissing) {
  WorkingLengthCase c = given();
  c.parts[2] = part("shim", 1, 1.5, 0, true);
  c.required = metres(0.037);
  const WorkingLength w = working_length(c);
  ASSERT_TRUE(w.correction);
  EXPECT_EQ(w.correction->part, "shim");
  EXPECT_TRUE(w.correction->part_missing);
}

TEST(WorkingLength, ASeatThatSitsTooDeepIsNamedThoughAShimCouldCorrectIt) {
  WorkingLengthCase c = given();
  c.parts[0] = part("seat depth", -1, 24.5, 26.0);
  const WorkingLength w = working_length(c);
  ASSERT_TRUE(w.correction);
  EXPECT_EQ(w.correction->part, "seat depth");
  EXPECT_EQ(w.correction->shim, "shim");
  EXPECT_NEAR(w.correction->shim_change.value(), 1.47e-3, 1e-9);
}

TEST(WorkingLength, SeveralSmallErrorsBlameNobody) {
  WorkingLengthCase c = given();
  c.parts[0] = part("seat depth", -1, 24.5, 25.3);
  c.parts[1] = part("sleeve shoulder", 1, 60, 59.2);
  c.parts[2] = part("shim", 1, 2, 1.3, true);
  const WorkingLength w = working_length(c);
  ASSERT_TRUE(w.correction);
  EXPECT_FALSE(w.correction->part);
  EXPECT_NEAR(w.correction->change.value(), 2.3e-3, 1e-9);
}

TEST(WorkingLength, WhatCouldEquallyExplainItIsSaidToo) {
  WorkingLengthCase c = given();
  c.parts[1] = part("sleeve shoulder", 1, 60, 59.55);
  c.parts[2] = part("shim", 1, 2, 1.6, true);
  const WorkingLength w = working_length(c);
  ASSERT_TRUE(w.correction);
  EXPECT_EQ(w.correction->part, "sleeve shoulder");
  EXPECT_EQ(w.correction->others, std::vector<std::string>{"shim"});
}

TEST(WorkingLength, ALengthNearItsLimitIsUnproven) {
  WorkingLengthCase c = given();
  c.parts[2] = part("shim", 1, 2, 1.5, true);
  EXPECT_EQ(working_length(c).verdict.outcome, Outcome::unproven);
}

TEST(WorkingLength, AnUnmeasuredPartIsBelievedWithItsDrawing) {
  WorkingLengthCase c = given();
  c.parts[1].measured.reset();
  const WorkingLength w = working_length(c);
  EXPECT_NEAR(w.installed.value.value(), 0.03748, 1e-9);
  EXPECT_NEAR(w.installed.u.value(), std::sqrt(2 * 0.02 * 0.02 + 0.1 * 0.1 / 9) * 1e-3, 1e-9);
}

TEST(WorkingLength, ServiceLoosensTheSpringAtTheLongEnd) {
  WorkingLengthCase c = given();
  c.service = {metres(0.05e-3), metres(0.15e-3), metres(-0.02e-3), metres(0.2e-3)};
  const WorkingLength w = working_length(c);
  EXPECT_NEAR((w.service.longest.value - w.service.shortest.value).value(), 0.42e-3, 1e-9);
  EXPECT_NEAR((w.service.at_shortest.force.value - w.service.at_longest.force.value).value(), 8000 * 0.42e-3,
              1e-6);
  EXPECT_LT(w.service.at_longest.force.value, w.spring.force.value);
}

TEST(WorkingLength, GrowthTakesEveryPartAtItsWorstEnd) {
  const WarmingPart shaft{1, metres(0.1), per_kelvin(17e-6), kelvin_step(40), kelvin_step(60)};
  const WarmingPart casing{-1, metres(0.1), per_kelvin(10e-6), kelvin_step(30), kelvin_step(70)};
  const std::vector<WarmingPart> both{shaft, casing};
  const GrowthRange growth = growth_of(both);
  EXPECT_NEAR(growth.low.value(), 0.1 * (17e-6 * 40 - 10e-6 * 70), 1e-12);
  EXPECT_NEAR(growth.high.value(), 0.1 * (17e-6 * 60 - 10e-6 * 30), 1e-12);
}

TEST(WorkingLength, ImpossibleInputsAreNamed) {
  const auto field = [](auto change) {
    WorkingLengthCase c = given();
    change(c);
    return testing::refused_field([&] { working_length(c); });
  };
  EXPECT_EQ(field([](auto&) {}), "");
  EXPECT_EQ(field([](auto& c) { c.parts.clear(); }), "links");
  EXPECT_EQ(field([](auto& c) { c.required = metres(0); }), "required");
  EXPECT_EQ(field([](auto& c) { c.upper_tolerance = metres(-1e-3); }), "tolerance");
  EXPECT_EQ(field([](auto& c) { c.rigid = metres(0.05); }), "rigid");
  EXPECT_EQ(field([](auto& c) { c.service.float_shortening = metres(-1); }), "service/float_shortening");
  EXPECT_EQ(field([](auto& c) { c.service.growth_high = metres(-1); }), "service/growth_high");
  const std::vector<WarmingPart> wrong{{1, metres(0.1), per_kelvin(17e-6), kelvin_step(60), kelvin_step(40)}};
  EXPECT_EQ(testing::refused_field([&] { growth_of(wrong); }), "warming/0/warming_high");
}

}  // namespace
}  // namespace pumpwright::seal

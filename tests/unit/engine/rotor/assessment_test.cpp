#include "engine/rotor/assessment.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/given_rotor.h"
#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

RotorVerdict verdict_of(const RotorCase& pump, const std::string& what) {
  for (const RotorVerdict& verdict : assess(pump).verdicts)
    if (verdict.what == what) return verdict;
  ADD_FAILURE() << "no verdict on " << what;
  return {};
}

RotorCase with_factor(double least, double expected, double most) {
  RotorCase pump = testing::overhung_pump();
  pump.pump.factor = {least, expected, most, "given"};
  return pump;
}

TEST(RotorAssessment, EveryRangeIsInOrder) {
  const RotorAssessment a = assess(testing::overhung_pump());
  EXPECT_LT(a.seal_deflection.least, a.seal_deflection.expected);
  EXPECT_LT(a.seal_deflection.expected, a.seal_deflection.most);
  EXPECT_LT(a.seal_tilt.least, a.seal_tilt.expected);
  EXPECT_LT(a.seal_tilt.expected, a.seal_tilt.most);
  EXPECT_GT(a.impeller_deflection.expected, a.seal_deflection.expected);
  for (const BearingFinding& bearing : a.bearings) {
    EXPECT_LE(bearing.radial.least, bearing.radial.expected);
    EXPECT_LT(bearing.radial.expected, bearing.radial.most);
    EXPECT_LE(bearing.life.least, bearing.life.expected);
    EXPECT_LE(bearing.life.expected, bearing.life.most);
    EXPECT_LT(a.system_life.expected, bearing.life.expected);
  }
}

TEST(RotorAssessment, CausesAddUpAtMostAndTakeEachOtherAwayAtLeast) {
  RotorCase pump = with_factor(0.2, 0.2, 0.2);
  pump.unbalance = unbalance_of_mass(kilograms(0), metres(0));
  const RotorAssessment both = assess(pump);
  pump.pump.factor = {0, 0, 0, "given"};
  const double weight_m = assess(pump).seal_deflection.most.value();
  const double thrust_m = both.seal_deflection.most.value() - weight_m;
  EXPECT_GT(weight_m, 0);
  EXPECT_GT(thrust_m, weight_m);
  EXPECT_NEAR(both.seal_deflection.least.value(), thrust_m - weight_m, 1e-15);
  EXPECT_NEAR(both.seal_deflection.expected.value(), std::hypot(thrust_m, weight_m), 1e-15);
}

TEST(RotorAssessment, ThrustNoLessThanTheWeightMayCancelIt) {
  RotorCase pump = with_factor(0, 0.2, 0.38);
  EXPECT_EQ(assess(pump).seal_deflection.least.value(), 0);
}

TEST(RotorAssessment, DeflectionHasThreeOutcomes) {
  const RotorCase narrow = with_factor(0.1, 0.11, 0.12);
  const Length most = assess(narrow).seal_deflection.most, least = assess(narrow).seal_deflection.least;
  const auto judged = [&](Length limit) {
    RotorCase pump = narrow;
    pump.limits.deflection = limit;
    return verdict_of(pump, "deflection");
  };
  EXPECT_EQ(judged(most).outcome, Outcome::pass);
  EXPECT_EQ(judged(most).reason, RotorReason::inside_at_most);
  EXPECT_EQ(judged(0.999 * most).outcome, Outcome::unproven);
  EXPECT_EQ(judged(0.999 * most).reason, RotorReason::thrust_straddles_limit);
  EXPECT_EQ(judged(least).outcome, Outcome::unproven);
  EXPECT_EQ(judged(0.999 * least).outcome, Outcome::fail);
}

TEST(RotorAssessment, ASpeedNearACriticalOneFails) {
  RotorCase pump = testing::overhung_pump();
  const double critical = assess(pump).critical.forward.front().value();
  EXPECT_EQ(verdict_of(pump, "separation").outcome, Outcome::pass);
  pump.speed = radians_per_second(critical / 1.19);
  EXPECT_EQ(verdict_of(pump, "separation").outcome, Outcome::fail);
  pump.speed = radians_per_second(critical / 1.21);
  EXPECT_EQ(verdict_of(pump, "separation").outcome, Outcome::pass);
}

TEST(RotorAssessment, BearingsOfUnknownStiffnessProveNoSeparationButSayWhatWouldDo) {
  RotorCase pump = testing::overhung_pump();
  pump.speed = radians_per_second(700);
  pump.rotor.supports[1].stiffness.reset();
  const RotorAssessment a = assess(pump);
  EXPECT_EQ(verdict_of(pump, "separation").reason, RotorReason::stiffness_not_given);
  ASSERT_TRUE(a.stiffness_needed);
  for (const auto& [share, outcome] : {std::pair{1.02, Outcome::pass}, std::pair{0.97, Outcome::fail}}) {
    for (Support& support : pump.rotor.supports)
      support.stiffness = share * *a.stiffness_needed;
    EXPECT_EQ(verdict_of(pump, "separation").outcome, outcome) << share;
  }
}

TEST(RotorAssessment, LifeIsJudgedOnlyWhenOneIsWanted) {
  RotorCase pump = testing::overhung_pump();
  EXPECT_EQ(assess(pump).verdicts.size(), 2U);
  const Range<Time> life = assess(pump).system_life;
  const auto judged = [&](Time wanted) {
    pump.limits.life = wanted;
    return verdict_of(pump, "life");
  };
  EXPECT_EQ(judged(0.99 * life.least).outcome, Outcome::pass);
  EXPECT_EQ(judged(1.01 * life.least).outcome, Outcome::unproven);
  EXPECT_EQ(judged(1.01 * life.most).outcome, Outcome::fail);
  pump.axial_load.reset();
  EXPECT_EQ(judged(0.5 * life.least).reason, RotorReason::axial_load_not_given);
  pump.bearings[0].dynamic_rating = newtons(300);
  EXPECT_EQ(judged(seconds(1)).reason, RotorReason::beyond_life_formula);
}

TEST(RotorAssessment, TheLineRunsAlongTheWholeShaft) {
  const RotorAssessment a = assess(testing::overhung_pump());
  EXPECT_EQ(a.line.front().at.value(), 0);
  EXPECT_NEAR(a.line.back().at.value(), 0.3, 1e-12);
  for (std::size_t i = 1; i < a.line.size(); ++i)
    EXPECT_GT(a.line[i].at, a.line[i - 1].at);
}

TEST(RotorAssessment, WhatIsWrongIsNamedAsTheFileHasIt) {
  const auto field = [](auto change) {
    RotorCase pump = testing::overhung_pump();
    change(pump);
    return testing::refused_field([&] { assess(pump); });
  };
  EXPECT_EQ(field([](auto& p) { p.seal_face = metres(0.5); }), "seal_face");
  EXPECT_EQ(field([](auto& p) { p.speed = radians_per_second(0); }), "speed");
  EXPECT_EQ(field([](auto& p) { p.limits.deflection = metres(0); }), "limits/deflection");
  EXPECT_EQ(field([](auto& p) { p.limits.separation = 1.5; }), "limits/separation");
  EXPECT_EQ(field([](auto& p) { p.limits.life = seconds(0); }), "limits/life");
  EXPECT_EQ(field([](auto& p) { p.bearings[1].static_rating.reset(); }), "bearings/1/static_rating");
  EXPECT_EQ(field([](auto& p) { p.bearings[1].kind = BearingKind::cylindrical_roller; }), "axial_load");
}

TEST(RotorAssessment, ReasonsHaveStableWords) {
  EXPECT_EQ(code(RotorReason::inside_at_most), "inside-at-most");
  EXPECT_EQ(code(RotorReason::beyond_life_formula), "beyond-life-formula");
}

}  // namespace
}  // namespace pumpwright::rotor

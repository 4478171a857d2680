// Pass, fail, unproven: on both sides of every boundary of both rules.
#include "engine/metrology/decision.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr double k95 = 1.6448536269514722;

Limit<Tir> tir_at_most(double upper_m) {
  return {.lower = {}, .upper = Tir{metres(upper_m)}};
}
Measured<Tir> tir(double value_m, double u_m) {
  return {.value = {metres(value_m)}, .u = metres(u_m)};
}

template <class L, class M>
concept can_decide = requires(L limit, M measured) {
  decide(limit, measured, DecisionRule{});
};
static_assert(can_decide<Limit<Tir>, Measured<Tir>>);
static_assert(!can_decide<Limit<Eccentricity>, Measured<Tir>>, "a limit on eccentricity judges no TIR");
static_assert(!can_decide<Limit<Length>, Measured<Tir>>);

TEST(GuardedDecision, PassesFailsAndLeavesUnprovenByTheGuardBand) {
  const auto limit = tir_at_most(50e-6);
  const auto pass = decide(limit, tir(40e-6, 4e-6), Guarded{});
  EXPECT_EQ(pass.outcome, Outcome::pass);
  EXPECT_EQ(pass.reason, Reason::inside_guarded);
  EXPECT_NEAR(pass.margin.value(), 10e-6, 1e-15);
  EXPECT_NEAR(pass.guard.value(), k95 * 4e-6, 1e-15);
  EXPECT_FALSE(pass.settling.u);

  const auto unproven = decide(limit, tir(45e-6, 4e-6), Guarded{});
  EXPECT_EQ(unproven.outcome, Outcome::unproven);
  EXPECT_EQ(unproven.reason, Reason::limit_in_uncertainty);

  const auto fail = decide(limit, tir(60e-6, 4e-6), Guarded{});
  EXPECT_EQ(fail.outcome, Outcome::fail);
  EXPECT_EQ(fail.reason, Reason::outside_guarded);
  EXPECT_NEAR(fail.margin.value(), -10e-6, 1e-15);
  EXPECT_EQ(decide(limit, tir(55e-6, 4e-6), Guarded{}).outcome, Outcome::unproven);
}

TEST(GuardedDecision, TheEdgeOfTheGuardBandIsProven) {
  const Limit<Length> limit{.lower = {}, .upper = metres(10)};
  for (const double inside : {1 - 1e-9, 1 + 1e-9}) {
    const Measured<Length> at{.value = metres(10 - k95 * inside), .u = metres(1)};
    EXPECT_EQ(decide(limit, at, Guarded{}).outcome, inside > 1 ? Outcome::pass : Outcome::unproven);
  }
}

TEST(GuardedDecision, PassMeansAtLeastTheStatedProbability) {
  const Limit<Length> limit{.lower = {}, .upper = metres(10)};
  const Measured<Length> edge{.value = metres(10 - k95), .u = metres(1)};
  EXPECT_NEAR(decide(limit, edge, Guarded{}).conformance_probability, 0.95, 1e-12);
  Measured<Length> few = edge;
  few.dof = 4;
  EXPECT_LT(decide(limit, few, Guarded{}).conformance_probability, 0.95);
  EXPECT_EQ(decide(limit, few, Guarded{}).outcome, Outcome::unproven);
  EXPECT_NEAR(decide(limit, few, Guarded{}).guard.value(), 2.131846786326649, 1e-12);  // t 0.95, 4 dof
}

TEST(GuardedDecision, LowerAndTwoSidedLimits) {
  const Limit<Length> at_least{.lower = metres(3e-4), .upper = {}};
  EXPECT_EQ(decide(at_least, {.value = metres(4e-4), .u = metres(1e-5)}, Guarded{}).outcome, Outcome::pass);
  const auto under = decide(at_least, {.value = metres(2e-4), .u = metres(1e-5)}, Guarded{});
  EXPECT_EQ(under.outcome, Outcome::fail);
  EXPECT_EQ(under.nearest, Side::lower);

  const Limit<Length> both{.lower = metres(1), .upper = metres(2)};
  EXPECT_EQ(decide(both, {.value = metres(1.2), .u = metres(0.1)}, Guarded{}).outcome, Outcome::pass);
  EXPECT_EQ(decide(both, {.value = metres(1.2), .u = metres(0.1)}, Guarded{}).nearest, Side::lower);
  EXPECT_EQ(decide(both, {.value = metres(1.9), .u = metres(0.1)}, Guarded{}).nearest, Side::upper);
  EXPECT_EQ(decide(both, {.value = metres(2.5), .u = metres(0.1)}, Guarded{}).outcome, Outcome::fail);
}

TEST(GuardedDecision, SaysWhenNoValueCouldBeProven) {
  const Limit<Length> narrow{.lower = metres(1), .upper = metres(1.3)};
  const auto verdict = decide(narrow, {.value = metres(1.15), .u = metres(0.1)}, Guarded{});
  EXPECT_EQ(verdict.reason, Reason::tolerance_too_narrow);
  EXPECT_NEAR(verdict.settling.u->value(), 0.15 / k95, 1e-12);
}

TEST(GuardedDecision, AnExactValueOnTheLimitPasses) {
  const auto verdict = decide(tir_at_most(50e-6), tir(50e-6, 0), Guarded{});
  EXPECT_EQ(verdict.outcome, Outcome::pass);
  EXPECT_EQ(verdict.conformance_probability, 1);
  const auto over = decide(tir_at_most(50e-6), tir(50.001e-6, 0), Guarded{});
  EXPECT_EQ(over.outcome, Outcome::fail);
  EXPECT_EQ(over.conformance_probability, 0);
}

TEST(GuardedDecision, OnTheLimitWithDoubtNothingSettles) {
  const auto verdict = decide(tir_at_most(50e-6), tir(50e-6, 1e-6), Guarded{});
  EXPECT_EQ(verdict.outcome, Outcome::unproven);
  EXPECT_FALSE(verdict.settling.u);
  EXPECT_FALSE(verdict.settling.graduation);
  EXPECT_FALSE(verdict.settling.repeats);
}

// Whatever is offered as settling must settle when it is done.
TEST(GuardedDecision, WhatWouldSettleItDoes) {
  Measured<Tir> measured = tir(45e-6, 5e-6);
  measured.graduation = metres(10e-6);
  measured.u_graduation = metres(4e-6);
  measured.u_scatter = metres(3e-6);
  const auto verdict = decide(tir_at_most(50e-6), measured, Guarded{});
  ASSERT_EQ(verdict.outcome, Outcome::unproven);

  ASSERT_TRUE(verdict.settling.u);
  Measured<Tir> better = measured;
  better.u = *verdict.settling.u * (1 - 1e-9);
  EXPECT_EQ(decide(tir_at_most(50e-6), better, Guarded{}).outcome, Outcome::pass);

  ASSERT_TRUE(verdict.settling.graduation);
  EXPECT_LT(verdict.settling.graduation->value(), 10e-6);
  const double finer = verdict.settling.graduation->value() / 10e-6 * 4e-6;
  EXPECT_NEAR(std::hypot(finer, 3e-6), verdict.settling.u->value(), 1e-15);

  EXPECT_FALSE(verdict.settling.repeats) << "the graduation alone is already too much";
  measured.u_graduation = metres(1e-6);
  measured.u_scatter = metres(std::sqrt(24.0) * 1e-6);
  const auto repeatable = decide(tir_at_most(50e-6), measured, Guarded{});
  ASSERT_TRUE(repeatable.settling.repeats);
  const int n = *repeatable.settling.repeats;
  EXPECT_GT(n, 1);
  const double needed = repeatable.settling.u->value();
  EXPECT_LE(std::hypot(1e-6, std::sqrt(24.0 / n) * 1e-6), needed * (1 + 1e-9));
  EXPECT_GT(std::hypot(1e-6, std::sqrt(24.0 / (n - 1)) * 1e-6), needed);
}

TEST(GuardedDecision, AQuantityThatCanNotBeNegativeLosesTheImpossiblePart) {
  const double z = 1.0;
  const auto verdict = decide(tir_at_most(20e-6), tir(10e-6, 10e-6), Guarded{});
  const double below = 0.5 * std::erfc(z / std::sqrt(2.0));
  EXPECT_NEAR(verdict.conformance_probability, (1 - 2 * below) / (1 - below), 1e-12);
  const Limit<Length> plain{.lower = {}, .upper = metres(20e-6)};
  EXPECT_NEAR(decide(plain, {.value = metres(10e-6), .u = metres(10e-6)}, Guarded{}).conformance_probability,
              1 - below, 1e-12);
}

TEST(SimpleAcceptanceDecision, TheValueDecidesWhenTheRatioIsMet) {
  Measured<Tir> measured = tir(49e-6, 9e-6);
  measured.graduation = metres(12.5e-6);
  const SimpleAcceptance four_to_one{.ratio = 4};
  EXPECT_EQ(decide(tir_at_most(50e-6), measured, four_to_one).outcome, Outcome::pass);
  EXPECT_EQ(decide(tir_at_most(50e-6), measured, four_to_one).reason, Reason::inside_limit);
  measured.value = {metres(50e-6)};
  EXPECT_EQ(decide(tir_at_most(50e-6), measured, four_to_one).outcome, Outcome::pass);
  measured.value = {metres(50.1e-6)};
  EXPECT_EQ(decide(tir_at_most(50e-6), measured, four_to_one).outcome, Outcome::fail);
}

TEST(SimpleAcceptanceDecision, ACoarseInstrumentProvesNothingEitherWay) {
  Measured<Tir> measured = tir(10e-6, 4e-6);
  measured.graduation = metres(25e-6);
  for (const double value_m : {10e-6, 500e-6}) {
    measured.value = {metres(value_m)};
    const auto verdict = decide(tir_at_most(50e-6), measured, SimpleAcceptance{.ratio = 4});
    EXPECT_EQ(verdict.outcome, Outcome::unproven);
    EXPECT_EQ(verdict.reason, Reason::instrument_too_coarse);
    ASSERT_TRUE(verdict.settling.graduation);
    EXPECT_NEAR(verdict.settling.graduation->value(), 12.5e-6, 1e-15);
  }
}

TEST(SimpleAcceptanceDecision, AHalfThouDialIsGoodEnoughForTwoThouAtFourToOne) {
  Measured<Tir> measured = tir(2 * 25.4e-6, 5e-6);
  measured.graduation = metres(0.0005 * 0.0254);
  EXPECT_EQ(decide(tir_at_most(0.002 * 0.0254), measured, SimpleAcceptance{.ratio = 4}).outcome,
            Outcome::pass);
}

TEST(SimpleAcceptanceDecision, TheRatioCanBeOfTheExpandedUncertainty) {
  const SimpleAcceptance rule{.ratio = 3, .of = SimpleAcceptance::Of::expanded_uncertainty};
  EXPECT_EQ(decide(tir_at_most(60e-6), tir(59e-6, 10e-6), rule).outcome, Outcome::pass);
  const auto coarse = decide(tir_at_most(60e-6), tir(59e-6, 11e-6), rule);
  EXPECT_EQ(coarse.reason, Reason::instrument_too_coarse);
  EXPECT_NEAR(coarse.settling.u->value(), 10e-6, 1e-15);
}

TEST(SimpleAcceptanceDecision, WithoutAGraduationThereIsNoRatio) {
  EXPECT_EQ(decide(tir_at_most(60e-6), tir(5e-6, 1e-6), SimpleAcceptance{}).reason,
            Reason::instrument_not_stated);
}

TEST(SimpleAcceptanceDecision, TwoSidedLimitsAreAsWideAsTheirDistance) {
  Measured<Length> measured{.value = metres(50e-3), .u = metres(1e-6), .graduation = metres(10e-6)};
  const Limit<Length> limit{.lower = metres(49.99e-3), .upper = metres(50.01e-3)};
  EXPECT_EQ(decide(limit, measured, SimpleAcceptance{.ratio = 4}).outcome, Outcome::unproven);
  EXPECT_EQ(decide(limit, measured, SimpleAcceptance{.ratio = 2}).outcome, Outcome::pass);
}

TEST(Decision, AnInstrumentOutOfDateProvesNothing) {
  Measured<Tir> measured = tir(1e-6, 1e-7);
  measured.graduation = metres(1e-7);
  measured.in_date = false;
  for (const DecisionRule& rule : {DecisionRule{Guarded{}}, DecisionRule{SimpleAcceptance{}}}) {
    const auto verdict = decide(tir_at_most(50e-6), measured, rule);
    EXPECT_EQ(verdict.outcome, Outcome::unproven);
    EXPECT_EQ(verdict.reason, Reason::instrument_out_of_date);
    EXPECT_GT(verdict.conformance_probability, 0.99);
  }
}

TEST(Decision, OtherQuantitiesAreJudgedTheSameWay) {
  const Limit<Temperature> limit{.lower = kelvin(350), .upper = kelvin(360)};
  const auto verdict = decide(limit, {.value = kelvin(355), .u = kelvin_step(1)}, Guarded{});
  EXPECT_EQ(verdict.outcome, Outcome::pass);
  EXPECT_NEAR(verdict.margin.value(), 5, 1e-12);
  const Limit<GaugePressure> hold{.lower = GaugePressure{pascals(-1e4)}, .upper = {}};
  EXPECT_EQ(decide(hold, {.value = {pascals(-5e4)}, .u = pascals(100)}, Guarded{}).outcome, Outcome::fail);
}

TEST(Decision, RefusesWhatCanNotBeJudged) {
  const double nan = std::nan("");
  EXPECT_THROW(decide(Limit<Tir>{}, tir(1, 1), Guarded{}), BadInput);
  EXPECT_THROW(decide(tir_at_most(nan), tir(1, 1), Guarded{}), BadInput);
  EXPECT_THROW(decide(tir_at_most(1), tir(nan, 1), Guarded{}), BadInput);
  EXPECT_THROW(decide(tir_at_most(1), tir(-1e-9, 1), Guarded{}), BadInput);
  EXPECT_THROW(decide(tir_at_most(1), tir(1, -1), Guarded{}), BadInput);
  EXPECT_THROW(decide(tir_at_most(1), tir(1, 1), Guarded{.probability = 1}), BadInput);
  EXPECT_THROW(decide(tir_at_most(1), tir(1, 1), SimpleAcceptance{.ratio = 0}), BadInput);
  const Limit<Length> crossed{.lower = metres(2), .upper = metres(1)};
  EXPECT_THROW(decide(crossed, {.value = metres(1), .u = metres(1)}, Guarded{}), BadInput);
  Measured<Tir> no_dof = tir(1, 1);
  no_dof.dof = 0;
  EXPECT_THROW(decide(tir_at_most(1), no_dof, Guarded{}), BadInput);
}

TEST(Decision, CodesAreDistinctWords) {
  std::vector<std::string> codes;
  for (int i = 0; i <= static_cast<int>(Reason::instrument_out_of_date); ++i)
    codes.push_back(code(static_cast<Reason>(i)));
  std::sort(codes.begin(), codes.end());
  EXPECT_EQ(std::adjacent_find(codes.begin(), codes.end()), codes.end());
  EXPECT_FALSE(codes.front().empty());
  EXPECT_EQ(code(Outcome::unproven), "unproven");
}

}  // namespace
}  // namespace pumpwright

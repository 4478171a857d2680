#include "engine/rotor/balance_influence.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/rotor/balance_solution.h"
#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

using testing::refused;
using testing::refused_field;

// One plane, one sensor; found 2 at 90°, and a trial of 1e-4 kg·m at 0° moves the reading by 1 towards 0°.
BalanceRuns simple() {
  BalanceRuns data;
  data.sensors = {std::nullopt};
  data.runs = {{{}, {{2, degrees(90)}}},
               {{{0, {kilogram_metres(1e-4), degrees(0)}}}, {{std::sqrt(5.0), radians(std::atan2(2, 1))}}}};
  return data;
}

TEST(BalanceInfluence, TwoRunsGiveOneCoefficientAndTheOpposingWeight) {
  const auto data = simple();
  const auto influence = influence_of(data);
  ASSERT_EQ(influence.size(), 1U);
  EXPECT_NEAR(std::abs(influence[0].base - std::complex<double>(0, 2)), 0, 1e-12);
  EXPECT_NEAR(std::abs(influence[0].alpha[0] - 1e4), 0, 1e-7);
  EXPECT_TRUE(influence[0].covariance.empty());

  // The trial is still on: what is there now is 2e-4 at 90° plus 1e-4 at 0°.
  const auto solution = solve_balance(data, influence);
  EXPECT_NEAR(std::abs(solution.remaining[0].value - std::complex<double>(1e-4, 2e-4)), 0, 1e-15);
  EXPECT_NEAR(std::abs(solution.correction[0] + std::complex<double>(1e-4, 2e-4)), 0, 1e-15);
  EXPECT_NEAR(solution.left_over[0].amplitude, 0, 1e-12);
  EXPECT_FALSE(solution.remaining[0].covariance);
}

TEST(BalanceInfluence, MetalTakenOutCountsAgainst) {
  auto data = simple();
  data.runs[1].fitted[0].removed = true;
  EXPECT_NEAR(std::abs(influence_of(data)[0].alpha[0] + 1e4), 0, 1e-7);
}

TEST(BalanceInfluence, StatedDoubtGivesTheClosedFormCovariance) {
  auto data = simple();
  data.sensors[0] = ReadingDoubt{0.01, radians(1e-9)};  // the phase adds nothing: round doubt of 0.01
  const auto influence = influence_of(data);
  ASSERT_EQ(influence[0].covariance.size(), 16U);
  EXPECT_NEAR(std::sqrt(influence[0].covariance[0]), 0.01, 1e-12);
  // α is a difference of two readings over 1e-4.
  EXPECT_NEAR(std::sqrt(influence[0].covariance[2 * 4 + 2]), std::sqrt(2.0) * 0.01 / 1e-4, 1e-6);
  EXPECT_TRUE(std::isinf(influence[0].dof));

  // u = v₀/α; u(u)² = σ²/|α|² (1 + |u/U|² ... ) with the coupling of v₀ through α: (v₀ - (v₁-v₀)·…): by hand
  // d(v₀/α) = dv₀ (1 + w)/α - dv₁ w/α with w = v₀/(α U), here |w|² = 4, |1 + w|² = 5.
  const auto solution = solve_balance(data, influence);
  const auto& c = *solution.remaining[0].covariance;
  EXPECT_NEAR(c[0], 0.01 * 0.01 / 1e8 * (5 + 4), 1e-20);
  EXPECT_NEAR(c[3], c[0], 1e-20);
  EXPECT_NEAR(c[1], 0, 1e-20);
  EXPECT_NEAR(solution.remaining[0].amount_u()->value(), 0.01 / 1e4 * 3, 1e-12);
  EXPECT_TRUE(solution.told_apart);
}

TEST(BalanceInfluence, PhaseDoubtWidensAcrossTheReadingOnly) {
  auto data = simple();
  data.runs[1].fitted.clear();
  data.runs[1].fitted.push_back({0, {kilogram_metres(1e-4), degrees(0)}});
  data.sensors[0] = ReadingDoubt{0.01, radians(0.1)};
  const auto influence = influence_of(data);
  // v₀ = 2 at 90°: along it is the imaginary part, across it the real one.
  EXPECT_NEAR(std::sqrt(influence[0].covariance[0]), 0.2, 1e-12);
  EXPECT_NEAR(std::sqrt(influence[0].covariance[4 + 1]), 0.01, 1e-12);
}

TEST(BalanceInfluence, RepeatedRunsScatterAndTheDoubtFollowsThem) {
  auto data = simple();
  data.runs.push_back(data.runs[0]);
  data.runs.back().readings[0].amplitude = 2.2;
  data.runs.push_back(data.runs[1]);
  auto influence = influence_of(data);
  EXPECT_NEAR(influence[0].base.imag(), 2.1, 1e-12);
  ASSERT_FALSE(influence[0].covariance.empty());
  // Two runs more than needed, two parts each: 4 degrees of freedom; the residuals ± 0.1 stand in one part.
  EXPECT_EQ(influence[0].dof, 4);
  EXPECT_NEAR(influence[0].covariance[0], 2 * 0.01 / 4 / 2, 1e-12);

  data.sensors[0] = ReadingDoubt{0.001, degrees(0.1)};  // far finer than what the runs show
  influence = influence_of(data);
  EXPECT_GT(*influence[0].residual_scale, 1);
  EXPECT_EQ(influence[0].dof, 4);
  data.sensors[0] = ReadingDoubt{1, degrees(20)};
  influence = influence_of(data);
  EXPECT_LT(*influence[0].residual_scale, 1);
  EXPECT_TRUE(std::isinf(influence[0].dof));
}

BalanceRuns two_planes(double cross) {
  // Sensor 1 sees plane 1 fully and plane 2 by `cross`; the other sensor the other way round.
  BalanceRuns data;
  data.planes = 2;
  data.sensors = {ReadingDoubt{0.02, degrees(1)}, ReadingDoubt{0.02, degrees(1)}};
  const double trial = 1e-4;
  const std::array<double, 2> found{3, 2};
  data.runs = {{{}, {{found[0], degrees(0)}, {found[1], degrees(0)}}},
               {{{0, {kilogram_metres(trial), degrees(0)}}},
                {{found[0] + 1, degrees(0)}, {found[1] + cross, degrees(0)}}},
               {{{1, {kilogram_metres(trial), degrees(0)}}},
                {{found[0] + cross, degrees(0)}, {found[1] + 1, degrees(0)}}}};
  return data;
}

TEST(BalanceInfluence, PlanesThatActAlikeAreNotToldApart) {
  const auto apart = two_planes(0.1);
  const auto clear = solve_balance(apart, influence_of(apart));
  EXPECT_TRUE(clear.told_apart);
  EXPECT_NEAR(clear.condition, 1.1 / 0.9, 0.02);  // rows are scaled to 4 and 3

  const auto alike = two_planes(0.98);
  const auto muddled = solve_balance(alike, influence_of(alike));
  EXPECT_FALSE(muddled.told_apart);
  EXPECT_GT(muddled.condition, 90);
}

TEST(BalanceInfluence, WithoutAnyDoubtTheConditionAloneWarns) {
  auto alike = two_planes(0.98);
  alike.sensors = {std::nullopt, std::nullopt};
  EXPECT_FALSE(solve_balance(alike, influence_of(alike)).told_apart);
  auto apart = two_planes(0.5);
  apart.sensors = {std::nullopt, std::nullopt};
  EXPECT_TRUE(solve_balance(apart, influence_of(apart)).told_apart);
}

TEST(BalanceInfluence, ThreeSensorsShareWhatCannotBeCancelled) {
  auto data = simple();
  data.sensors = {std::nullopt, std::nullopt};
  for (auto& run : data.runs)
    run.readings.push_back(run.readings[0]);
  data.runs[0].readings[1].amplitude =
      1;  // half the base, and so another influence: not to be cancelled together
  const auto solution = solve_balance(data, influence_of(data));
  EXPECT_GT(solution.left_over[0].amplitude, 0.01);
  EXPECT_GT(solution.left_over[1].amplitude, 0.01);
}

TEST(BalanceInfluence, RunsThatTellNothingAreRefused) {
  auto data = simple();
  data.runs.pop_back();
  EXPECT_EQ(refused_field([&] { (void)influence_of(data); }), "runs");
  data = simple();
  data.runs[1].fitted.clear();
  EXPECT_EQ(refused_field([&] { (void)influence_of(data); }), "runs");
  auto both = two_planes(0.1);
  both.runs[2] = both.runs[1];
  EXPECT_NE(refused([&] { (void)influence_of(both); }).expected.find("differ in every plane"),
            std::string::npos);
  data = simple();
  data.runs[1].readings = data.runs[0].readings;  // the trial changed nothing
  EXPECT_EQ(refused_field([&] { (void)solve_balance(data, influence_of(data)); }), "runs");
}

TEST(BalanceInfluence, WhatIsOutOfRangeIsRefused) {
  auto data = simple();
  data.planes = 3;
  EXPECT_EQ(refused_field([&] { (void)influence_of(data); }), "planes");
  data = simple();
  data.planes = 2;
  EXPECT_EQ(refused_field([&] { (void)influence_of(data); }), "sensors");
  data = simple();
  data.runs[0].readings[0].amplitude = -1;
  EXPECT_EQ(refused_field([&] { (void)influence_of(data); }), "runs/readings/amplitude");
  data = simple();
  data.runs[1].fitted[0].plane = 1;
  EXPECT_EQ(refused_field([&] { (void)influence_of(data); }), "runs/fitted/plane");
  data = simple();
  data.sensors[0] = ReadingDoubt{0, degrees(1)};
  EXPECT_EQ(refused_field([&] { (void)influence_of(data); }), "sensors/amplitude_u");
  data = simple();
  data.runs[0].readings.clear();
  EXPECT_EQ(refused_field([&] { (void)influence_of(data); }), "runs/readings");
}

TEST(BalanceSolution, LeversCarryTheUnbalanceToTheBearings) {
  auto data = two_planes(0.1);
  const auto solution = solve_balance(data, influence_of(data));
  // Planes at 0.2 and 0.6 of a span of 1.
  const std::array<Length, 2> at{metres(0.2), metres(0.6)};
  const auto ends = seen_at(solution, at, metres(0), metres(1));
  const auto u1 = solution.remaining[0].value;
  const auto u2 = solution.remaining[1].value;
  EXPECT_NEAR(std::abs(ends[0].value - (0.8 * u1 + 0.4 * u2)), 0, 1e-18);
  EXPECT_NEAR(std::abs(ends[1].value - (0.2 * u1 + 0.6 * u2)), 0, 1e-18);
  // Planes in the bearings: nothing changes, the covariance neither.
  const std::array<Length, 2> same{metres(0), metres(1)};
  const auto kept = seen_at(solution, same, metres(0), metres(1));
  for (std::size_t p = 0; p < 2; ++p)
    for (std::size_t k = 0; k < 4; ++k)
      EXPECT_NEAR((*kept[p].covariance)[k], (*solution.remaining[p].covariance)[k], 1e-20);
  EXPECT_EQ(refused_field([&] { (void)seen_at(solution, at, metres(1), metres(1)); }), "rotor/bearings");
}

}  // namespace
}  // namespace pumpwright::rotor

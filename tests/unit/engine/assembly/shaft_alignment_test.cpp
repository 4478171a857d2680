#include "engine/assembly/shaft_alignment.h"

#include <gtest/gtest.h>

#include "tests/support/given_alignment.h"
#include "tests/support/refused.h"

namespace pumpwright::alignment {
namespace {

using testing::given_readings;
using testing::GivenLine;
using testing::quarters;
using testing::refused_field;

Instrument half_thou() {
  Instrument i;
  i.graduation = metres(12.7e-6);
  return i;
}

Dial rim(BaseOn base, double at_m) {
  Dial d;
  d.base = base;
  d.at = metres(at_m);
  return d;
}

Dial face(double radius_m) {
  Dial d;
  d.on = DialOn::face;
  d.radius = metres(radius_m);
  return d;
}

constexpr GivenLine planted{80e-6, -50e-6, 0.4e-3, 0.2e-3};

ShaftLine found(std::array<Dial, 2> dials, const GivenLine& line,
                const std::vector<double>& places = quarters()) {
  const Instrument instrument = half_thou();
  std::array<DialResult, 2> results;
  for (std::size_t i = 0; i < 2; ++i) {
    dials[i].readings = given_readings(dials[i], line, places);
    results[i] = evaluate_dial(dials[i], &instrument);
    EXPECT_TRUE(results[i].valid);
  }
  return shaft_line(dials, results, metres(0));
}

void expect_planted(const ShaftLine& line) {
  EXPECT_NEAR(line.up_m, planted.up_m, 1e-12);
  EXPECT_NEAR(line.right_m, planted.right_m, 1e-12);
  EXPECT_NEAR(line.up_slope, planted.up_slope, 1e-12);
  EXPECT_NEAR(line.right_slope, planted.right_slope, 1e-12);
}

TEST(ShaftAlignment, TwoRimsWithBasesOnBothShafts) {
  expect_planted(found({rim(BaseOn::moved_shaft, -0.06), rim(BaseOn::fixed_shaft, 0.08)}, planted));
}

TEST(ShaftAlignment, RimAndFace) {
  expect_planted(found({rim(BaseOn::fixed_shaft, 0.03), face(0.06)}, planted));
}

TEST(ShaftAlignment, TheFarSideOfAFlangeAndAPlungerThatReadsMinusTurnTheSign) {
  Dial far = face(0.06);
  far.far_side = true;
  Dial minus = rim(BaseOn::moved_shaft, 0.03);
  minus.plunger_in = PlungerIn::minus;
  expect_planted(found({minus, far}, planted));
}

TEST(ShaftAlignment, SagIsTakenOut) {
  Dial sagging = rim(BaseOn::fixed_shaft, 0.1);
  sagging.sag = BarSag{metres(-100e-6), radians(0), metres(0)};
  expect_planted(found({rim(BaseOn::moved_shaft, -0.1), sagging}, planted));
}

TEST(ShaftAlignment, AnyPlacesDo) {
  expect_planted(found({rim(BaseOn::moved_shaft, -0.06), rim(BaseOn::fixed_shaft, 0.08)}, planted,
                       {0.1, 1.2, 2.2, 3.5, 4.4, 5.9}));
}

TEST(ShaftAlignment, AShaftThatRisesShowsItsFaceCloserAtTheTop) {
  Dial d = face(0.05);
  d.readings = given_readings(d, {0, 0, 1e-3, 0}, quarters());
  EXPECT_NEAR(d.readings[2].reading.value(), -2 * 0.05 * 1e-3,
              1e-15);  // open at the bottom: plunger comes out
}

TEST(ShaftAlignment, TheRuleOfOppositeReadings) {
  Dial d = rim(BaseOn::fixed_shaft, 0);
  const Instrument instrument = half_thou();
  // Top + bottom = -40, left + right = -10: out by 30 µm, more than the 25.4 allowed.
  d.readings = {{degrees(0), metres(0)},
                {degrees(90), metres(5e-6)},
                {degrees(180), metres(-40e-6)},
                {degrees(270), metres(-15e-6)}};
  auto result = evaluate_dial(d, &instrument);
  EXPECT_NEAR(result.disagreement.value(), 30e-6, 1e-12);
  EXPECT_FALSE(result.valid);
  EXPECT_TRUE(evaluate_dial(d, &instrument, metres(31e-6)).valid);

  d.readings = given_readings(d, planted, quarters());
  d.readings.push_back({degrees(360), metres(30e-6)});  // the needle does not come back
  result = evaluate_dial(d, &instrument);
  EXPECT_FALSE(result.valid);
}

TEST(ShaftAlignment, DoubtGrowsWithTheDistanceFromTheDials) {
  const auto line = found({rim(BaseOn::moved_shaft, -0.1), rim(BaseOn::fixed_shaft, 0.1)}, planted);
  ASSERT_TRUE(line.covariance);
  // Graduation 12.7 µm: σ = 12.7/√12 each reading, σ² 2/4 for a harmonic; offset half way: σ²/2 · ½.
  const double sigma = 12.7e-6 / std::sqrt(12.0);
  EXPECT_NEAR(line.up_u_at(metres(0))->value(), sigma / 2, 1e-9);
  EXPECT_NEAR(line.up_u_at(metres(0.1))->value(), sigma / std::sqrt(2.0), 1e-9);
  EXPECT_NEAR(line.right_u_at(metres(1))->value(), sigma / std::sqrt(2.0) * std::sqrt(0.5 + 0.5 * 100), 1e-9);
  EXPECT_NEAR(line.up_at(metres(0.5)).value(), planted.up_m + 0.5 * planted.up_slope, 1e-12);
  EXPECT_NEAR(line.right_at(metres(0.5)).value(), planted.right_m + 0.5 * planted.right_slope, 1e-12);
}

TEST(ShaftAlignment, OffsetAndAngularityAreJudged) {
  const auto line = found({rim(BaseOn::moved_shaft, -0.1), rim(BaseOn::fixed_shaft, 0.1)}, planted);
  EXPECT_NEAR(line.offset().value(), std::hypot(80e-6, 50e-6), 1e-12);
  EXPECT_NEAR(line.angularity().value(), std::hypot(0.4e-3, 0.2e-3), 1e-9);
  EXPECT_EQ(judge_offset(line, {metres(200e-6), radians(1e-3)}).outcome, Outcome::pass);
  EXPECT_EQ(judge_angularity(line, {metres(200e-6), radians(1e-3)}).outcome, Outcome::pass);
  EXPECT_EQ(judge_offset(line, {metres(50e-6), radians(0.1e-3)}).outcome, Outcome::fail);
  EXPECT_EQ(judge_angularity(line, {metres(50e-6), radians(0.1e-3)}).outcome, Outcome::fail);
  EXPECT_EQ(judge_offset(line, {line.offset(), radians(1)}).outcome, Outcome::unproven);
  auto bare = line;
  bare.covariance.reset();
  EXPECT_EQ(judge_offset(bare, {metres(200e-6), radians(1e-3)}).reason, "uncertainty-not-known");
}

TEST(ShaftAlignment, WhatCannotTellALineIsRefused) {
  const Instrument instrument = half_thou();
  Dial d = rim(BaseOn::fixed_shaft, 0);
  d.readings = given_readings(d, planted, {0, 2, 4});
  EXPECT_EQ(refused_field([&] { (void)evaluate_dial(d, &instrument); }), "dials/readings");
  Dial flat = face(0);
  flat.readings = given_readings(flat, planted, quarters());
  EXPECT_EQ(refused_field([&] { (void)evaluate_dial(flat, &instrument); }), "dials/radius");
  flat = face(0.1);
  flat.sag = BarSag{};
  EXPECT_EQ(refused_field([&] { (void)evaluate_dial(flat, &instrument); }), "dials/sag");
  const std::array<DialResult, 2> none{};
  const auto line_of = [&](const Dial& a, const Dial& b) { (void)shaft_line({a, b}, none, metres(0)); };
  EXPECT_EQ(refused_field([&] { line_of(face(0.1), face(0.2)); }), "dials");
  EXPECT_EQ(refused_field([&] { line_of(rim(BaseOn::fixed_shaft, 0.1), rim(BaseOn::moved_shaft, 0.1)); }),
            "dials");
  EXPECT_EQ(refused_field([&] { (void)judge_offset({}, {metres(0), radians(1)}); }), "tolerance/offset");
  EXPECT_EQ(refused_field([&] {
              (void)judge_angularity({}, {metres(1), radians(0)});
            }),
            "tolerance/angularity");
}

}  // namespace
}  // namespace pumpwright::alignment

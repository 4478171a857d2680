// Readings that come round again: closure, drift, a second turn.
#include <gtest/gtest.h>

#include "engine/metrology/sweep.h"
#include "tests/unit/engine/metrology/known_surface.h"

namespace pumpwright {
namespace {

using testing::even_places;
using testing::KnownSurface;
using testing::swept;

const KnownSurface surface{.harmonics = {{1, 20e-6, 75}}};

std::vector<double> with_more(std::vector<double> places, const std::vector<double>& more) {
  places.insert(places.end(), more.begin(), more.end());
  return places;
}

TEST(SweepRepeat, ClosureIsLastLessFirstAsTheNeedleShowed) {
  for (const double closing : {0.0, 360.0}) {
    auto readings = swept(surface, with_more(even_places(12), {closing}));
    readings.back().reading += metres(3e-6);
    SweepSetup setup{.plunger_in = PlungerIn::minus};
    const SweepResult r = evaluate_sweep(readings, setup);
    ASSERT_TRUE(r.closure) << closing;
    EXPECT_NEAR(r.closure->value(), 3e-6, 1e-15);
    EXPECT_EQ(r.count, 13U);
    EXPECT_EQ(r.places, 12U);
    ASSERT_TRUE(r.drift_per_turn);
    EXPECT_NEAR(r.drift_per_turn->value(), -3e-6, 1e-15);  // as surface: the needle was turned over
    EXPECT_FALSE(r.repeatability) << "one pair is a closure, not a second turn";
  }
}

TEST(SweepRepeat, ASweepThatDoesNotComeBackHasNoClosure) {
  const SweepResult r = evaluate_sweep(swept(surface, even_places(12)), {});
  EXPECT_FALSE(r.closure);
  EXPECT_FALSE(r.drift_per_turn);
}

TEST(SweepRepeat, ClosesBackwardsToo) {
  std::vector<double> places;
  for (int i = 0; i <= 12; ++i)
    places.push_back(-30.0 * i);
  const SweepResult r = evaluate_sweep(swept(surface, places), {});
  ASSERT_TRUE(r.closure);
  EXPECT_NEAR(r.closure->value(), 0, 1e-15);
}

TEST(SweepRepeat, SecondTurnGivesTheRepeatability) {
  std::vector<double> second;
  for (const double place : even_places(8))
    second.push_back(place + 360);
  auto readings = swept(surface, with_more(even_places(8), second));
  for (std::size_t i = 8; i < 16; ++i)
    readings[i].reading += metres(i % 2 == 0 ? 4e-6 : -4e-6);
  const SweepResult r = evaluate_sweep(readings, {});
  ASSERT_TRUE(r.repeatability);
  // Every pair differs by 4 µm: s² = d²/2.
  EXPECT_NEAR(r.repeatability->value(), 4e-6 / std::sqrt(2.0), 1e-14);
  EXPECT_EQ(r.repeatability_dof, 8U);
  EXPECT_NEAR(r.drift_per_turn->value(), 0, 1e-14);
  ASSERT_TRUE(r.tir_u);
  EXPECT_NEAR(r.tir_u->value(), 4e-6, 1e-14);
  EXPECT_EQ(r.tir_dof, 8);
}

TEST(SweepRepeat, TirIsThatOfEverythingRead) {
  std::vector<double> second;
  for (const double place : even_places(8))
    second.push_back(place + 360);
  auto readings = swept(surface, with_more(even_places(8), second));
  readings[10].reading = metres(60e-6);
  const SweepResult r = evaluate_sweep(readings, {});
  EXPECT_EQ(r.highest, 10U);
  EXPECT_GT(r.tir.value.value(), 60e-6);
}

TEST(SweepRepeat, AgreeingTurnsStillKeepTheInstrumentsGraduation) {
  std::vector<double> second;
  for (const double place : even_places(8))
    second.push_back(place + 360);
  const Instrument dial{.id = "dial", .graduation = metres(10e-6)};
  const SweepResult r = evaluate_sweep(swept(surface, with_more(even_places(8), second)), {}, &dial);
  ASSERT_TRUE(r.tir_u);
  EXPECT_NEAR(r.tir_u->value(), std::sqrt(2.0) * 10e-6 / std::sqrt(12.0), 1e-14);
}

TEST(SweepRepeat, AClosingReadingInsideTheGapIsStillAClosure) {
  auto readings = swept(surface, with_more(even_places(12), {360}));
  readings.back().reading += metres(2e-6);
  SweepSetup setup;
  setup.gaps = {{degrees(350), degrees(10)}};
  const SweepResult r = evaluate_sweep(readings, setup);
  EXPECT_EQ(r.left_out, 2U);
  ASSERT_TRUE(r.closure);
  EXPECT_NEAR(r.closure->value(), 2e-6, 1e-14);
}

}  // namespace
}  // namespace pumpwright

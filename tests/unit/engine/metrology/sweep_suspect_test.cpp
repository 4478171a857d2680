// A reading that does not belong is named, asked for again, and counts all the same.
#include <random>

#include <gtest/gtest.h>

#include "engine/metrology/sweep.h"
#include "tests/unit/engine/metrology/known_surface.h"

namespace pumpwright {
namespace {

using testing::even_places;
using testing::KnownSurface;
using testing::swept;

const KnownSurface surface{.harmonics = {{1, 30e-6, 40}, {2, 5e-6, 20}}};

std::vector<SweepReading> noisy(const KnownSurface& s, const std::vector<double>& places, double sd_m,
                                unsigned seed) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> noise(0, sd_m);
  auto readings = swept(s, places);
  for (SweepReading& r : readings)
    r.reading += metres(noise(random));
  return readings;
}

TEST(SweepSuspect, OneSpoiledReadingAmongTwelveIsNamedAndStillJudged) {
  for (std::size_t spoiled = 0; spoiled < 12; ++spoiled) {
    auto readings = noisy(surface, even_places(12), 0.5e-6, 11);
    readings[spoiled].reading += metres(40e-6);
    const SweepResult r = evaluate_sweep(readings, {});
    ASSERT_EQ(r.suspects.size(), 1U) << spoiled;
    EXPECT_EQ(r.suspects[0].index, spoiled);
    EXPECT_NEAR(degrees_of(r.suspects[0].place), 30.0 * static_cast<double>(spoiled), 1e-9);
    EXPECT_GT(r.suspects[0].residual.value(), 0);
    EXPECT_EQ(r.count, 12U);
    double low = 1;
    double high = -1;
    for (const SweepReading& reading : readings) {
      low = std::min(low, reading.reading.value());
      high = std::max(high, reading.reading.value());
    }
    EXPECT_NEAR(r.tir.value.value(), high - low, 1e-15) << "the TIR that was read is what is judged";
  }
}

TEST(SweepSuspect, NamesASpoiledReadingWhenAllOthersFitExactly) {
  auto readings = swept(surface, even_places(12));
  readings[7].reading -= metres(25e-6);
  const SweepResult r = evaluate_sweep(readings, {});
  ASSERT_EQ(r.suspects.size(), 1U);
  EXPECT_EQ(r.suspects[0].index, 7U);
  EXPECT_LT(r.suspects[0].residual.value(), 0);
}

TEST(SweepSuspect, CleanReadingsNameNobody) {
  EXPECT_TRUE(evaluate_sweep(swept(surface, even_places(12)), {}).suspects.empty());
  EXPECT_TRUE(evaluate_sweep(swept(surface, even_places(3600)), {}).suspects.empty());
  EXPECT_TRUE(evaluate_sweep(swept({}, even_places(12)), {}).suspects.empty());
}

TEST(SweepSuspect, FormOfThirdOrderIsNotTakenForGrit) {
  const KnownSurface lobed{.harmonics = {{1, 30e-6, 40}, {3, 6e-6, 15}}};
  EXPECT_TRUE(evaluate_sweep(swept(lobed, even_places(12)), {}).suspects.empty());
}

TEST(SweepSuspect, AboutOneCleanSweepInTwentyNamesAReading) {
  int named = 0;
  for (unsigned seed = 0; seed < 2000; ++seed)
    named += evaluate_sweep(noisy(surface, even_places(12), 1e-6, seed), {}).suspects.empty() ? 0 : 1;
  EXPECT_GT(named, 50);
  EXPECT_LT(named, 130);
}

TEST(SweepSuspect, NobodyIsNamedBelowThreeDegreesOfFreedom) {
  for (const int count : {3, 4, 5}) {
    auto readings = swept({.harmonics = {{1, 30e-6, 40}}}, even_places(count));
    readings[1].reading += metres(200e-6);
    EXPECT_TRUE(evaluate_sweep(readings, {}).suspects.empty()) << count;
  }
}

TEST(SweepSuspect, OneGraduationOffIsNotASuspectWhenTheInstrumentIsStated) {
  const Instrument dial{.id = "dial", .graduation = metres(10e-6)};
  std::vector<SweepReading> readings;
  for (const double place : even_places(12))
    readings.push_back({degrees(place), metres(0)});
  readings[4].reading = metres(10e-6);
  EXPECT_TRUE(evaluate_sweep(readings, {}, &dial).suspects.empty());
  readings[4].reading = metres(60e-6);
  ASSERT_EQ(evaluate_sweep(readings, {}, &dial).suspects.size(), 1U);
}

}  // namespace
}  // namespace pumpwright

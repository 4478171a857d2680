// What a sweep says about a surface that is known.
#include "engine/metrology/sweep.h"

#include <gtest/gtest.h>

#include "engine/metrology/decision.h"
#include "tests/unit/engine/metrology/known_surface.h"

namespace pumpwright {
namespace {

using testing::even_places;
using testing::KnownSurface;
using testing::swept;
using testing::um;

constexpr double exact_m = 1e-12;

const KnownSurface three_orders{.mean_m = 0.4e-3,
                                .harmonics = {{1, 30e-6, 40}, {2, 8e-6, 20}, {3, 3e-6, 100}}};

void expect_recovered(const KnownSurface& surface, const std::vector<double>& places) {
  const SweepResult r = evaluate_sweep(swept(surface, places), {});
  EXPECT_NEAR(r.mean.value(), surface.mean_m, exact_m);
  for (const auto& h : surface.harmonics) {
    ASSERT_GE(r.carried_order, h.order) << places.size() << " places";
    const Harmonic& found = r.harmonics[static_cast<std::size_t>(h.order - 1)];
    EXPECT_EQ(found.order, h.order);
    EXPECT_NEAR(found.amplitude.value(), h.amplitude_m, exact_m);
    EXPECT_NEAR(degrees_of(found.phase), h.crest_deg, 1e-5);
  }
  for (std::size_t k = surface.harmonics.size(); k < r.harmonics.size(); ++k)
    EXPECT_NEAR(r.harmonics[k].amplitude.value(), 0, exact_m);
}

TEST(Sweep, RecoversKnownHarmonicsAtEvenPlaces) {
  for (const int count : {8, 12, 24, 36, 360, 3600})
    expect_recovered(three_orders, even_places(count, 7));
}

TEST(Sweep, RecoversKnownHarmonicsAtUnevenPlaces) {
  expect_recovered(three_orders, {3, 31, 65, 88, 118, 155, 176, 214, 242, 275, 301, 329});
  expect_recovered(three_orders, {0, 20, 60, 100, 130, 170, 210, 225, 260, 290, 310, 340, 350});
}

TEST(Sweep, RecoversKnownHarmonicsBesideAKeywayGap) {
  expect_recovered(three_orders, {30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330});
}

TEST(Sweep, RecoversKnownHarmonicsFromMoreThanOneTurn) {
  std::vector<double> places = even_places(12);
  for (const double place : even_places(12))
    places.push_back(place + 360);
  places.push_back(720);
  expect_recovered(three_orders, places);
}

TEST(Sweep, RecoversEveryOrderBelowHalfTheNumberOfEvenPlaces) {
  expect_recovered(
      {.mean_m = 1e-3,
       .harmonics = {{1, 20e-6, 300}, {2, 9e-6, 170}, {3, 4e-6, 5}, {4, 3e-6, 80}, {5, 2e-6, 1}}},
      even_places(12));
}

TEST(Sweep, FitsFourPlacesWithOneOrderAndEightWithThree) {
  EXPECT_EQ(evaluate_sweep(swept(three_orders, even_places(3)), {}).carried_order, 1);
  EXPECT_EQ(evaluate_sweep(swept(three_orders, even_places(4)), {}).carried_order, 1);
  EXPECT_EQ(evaluate_sweep(swept(three_orders, even_places(5)), {}).carried_order, 2);
  EXPECT_EQ(evaluate_sweep(swept(three_orders, even_places(8)), {}).carried_order, 3);
  EXPECT_EQ(evaluate_sweep(swept(three_orders, even_places(12)), {}).carried_order, 5);
  EXPECT_EQ(evaluate_sweep(swept(three_orders, even_places(3600)), {}).carried_order, highest_order);
}

// Twelve readings built as 0.030 cos(θ-40°) + 0.008 cos 2(θ-20°) + 0.003 cos 3θ mm, rounded to 0.1 µm;
// results by the closed sums for even places (a = 2/n Σ r cos θ and so on), worked outside this program.
TEST(Sweep, AgreesWithTwelveReadingsWorkedByClosedSums) {
  const std::vector<double> mm{0.0321,  0.0371,  0.0266,  0.0132,  0.0007,  -0.0116,
                               -0.0199, -0.0220, -0.0238, -0.0254, -0.0157, 0.0089};
  std::vector<SweepReading> readings;
  for (std::size_t i = 0; i < mm.size(); ++i)
    readings.push_back({degrees(30.0 * static_cast<double>(i)), metres(mm[i] * 1e-3)});
  const SweepResult r = evaluate_sweep(readings, {});
  EXPECT_EQ(r.count, 12U);
  EXPECT_NEAR(um(r.mean), 0.0166667, 5e-8);
  EXPECT_NEAR(um(r.vector[0]), 22.989270357, 1e-9);
  EXPECT_NEAR(um(r.vector[1]), 19.291749495, 1e-9);
  EXPECT_NEAR(um(r.eccentricity.value), 30.011300374, 1e-9);
  ASSERT_TRUE(r.high_spot);
  EXPECT_NEAR(degrees_of(*r.high_spot), 40.0021370, 5e-8);
  EXPECT_NEAR(um(r.tir.value), 62.5, 1e-9);
  EXPECT_EQ(r.highest, 1U);
  EXPECT_EQ(r.lowest, 9U);
  EXPECT_NEAR(um(r.ront), 19.598220, 5e-7);
  EXPECT_NEAR(um(r.ronq), 6.033985, 5e-7);
  EXPECT_NEAR(um(r.harmonics[1].amplitude), 7.988551, 5e-7);
  EXPECT_NEAR(degrees_of(r.harmonics[1].phase), 20.01628, 5e-6);
}

TEST(Sweep, ReadsTwiceTheEccentricityOfARoundSurface) {
  const SweepResult r = evaluate_sweep(swept({.harmonics = {{1, 25e-6, 13}}}, even_places(360, 0.5)), {});
  EXPECT_NEAR(r.tir_fitted.value.value(), 2 * r.eccentricity.value.value(), exact_m);
  EXPECT_NEAR(r.tir.value.value(), 2 * 25e-6, 2 * 25e-6 * 1e-4);
  EXPECT_NEAR(r.ront.value(), 0, exact_m);
  EXPECT_NEAR(r.ronq.value(), 0, exact_m);
}

TEST(Sweep, FourPlacesMissMostWhenTheHighSpotFallsBetweenThem) {
  const SweepResult between = evaluate_sweep(swept({.harmonics = {{1, 50e-6, 45}}}, even_places(4)), {});
  const double missed_m = 2 * 50e-6 * (1 - std::cos(pi / 4));
  EXPECT_NEAR(between.tir.value.value(), 2 * 50e-6 * std::cos(pi / 4), exact_m);
  EXPECT_NEAR(between.missed_tir.fitted.value(), missed_m, exact_m);
  EXPECT_NEAR(between.missed_tir.worst_phase.value(), missed_m, exact_m);

  const SweepResult on = evaluate_sweep(swept({.harmonics = {{1, 50e-6, 90}}}, even_places(4)), {});
  EXPECT_NEAR(on.missed_tir.fitted.value(), 0, exact_m);
  EXPECT_NEAR(on.missed_tir.bound().value(), missed_m, exact_m);
}

TEST(Sweep, WorstPhaseLossOfEvenPlacesIsThatOfHalfTheirSpacing) {
  for (const int count : {4, 8, 12, 36}) {
    const SweepResult r = evaluate_sweep(swept({.harmonics = {{1, 50e-6, 45}}}, even_places(count)), {});
    EXPECT_NEAR(r.missed_tir.worst_phase.value(), 100e-6 * (1 - std::cos(pi / count)), exact_m) << count;
  }
  // An odd number never has both ends worst at once: crest halfway, trough on a place.
  const SweepResult five = evaluate_sweep(swept({.harmonics = {{1, 50e-6, 45}}}, even_places(5)), {});
  EXPECT_NEAR(five.missed_tir.worst_phase.value(), 100e-6 * (1 - 0.5 * (1 + std::cos(pi / 5))), exact_m);
}

TEST(Sweep, ReadPlusMissedIsTheWholeTurnsTir) {
  // Maximum and minimum found on a fine grid, independently of the program's search.
  double low = 1;
  double high = -1;
  for (int i = 0; i < 360000; ++i) {
    const double v = three_orders.at(i * 0.001);
    low = std::min(low, v);
    high = std::max(high, v);
  }
  for (const int count : {8, 9, 12, 16}) {
    const SweepResult r = evaluate_sweep(swept(three_orders, even_places(count, 11)), {});
    EXPECT_NEAR(r.tir_fitted.value.value(), high - low, 2e-13) << count;
    EXPECT_NEAR((r.tir.value + r.missed_tir.fitted).value(), high - low, 2e-13) << count;
  }
}

TEST(Sweep, DoesNotLookForExtremesInsideADeclaredGap) {
  // The crest stands at 90°, in the middle of the gap: what is left of the surface peaks at the gap's edge.
  SweepSetup setup;
  setup.gaps = {{degrees(70), degrees(110)}};
  const SweepResult r = evaluate_sweep(swept({.harmonics = {{1, 40e-6, 90}}}, even_places(24)), setup);
  EXPECT_EQ(r.left_out, 3U);  // 75°, 90°, 105°
  EXPECT_EQ(r.count, 21U);
  EXPECT_NEAR(r.tir_fitted.value.value(), 40e-6 * (1 + std::cos(20 * pi / 180)), exact_m);
  EXPECT_NEAR(r.eccentricity.value.value(), 40e-6, exact_m);
}

TEST(Sweep, LeavesOutOnlyReadingsStrictlyInsideAGapAlsoAcrossZero) {
  KnownSurface surface{.harmonics = {{1, 10e-6, 200}}};
  std::vector<SweepReading> readings = swept(surface, even_places(12));
  readings[0].reading = metres(-2e-3);  // the plunger dropped into the keyway
  SweepSetup setup;
  setup.gaps = {{degrees(330), degrees(30)}};
  const SweepResult r = evaluate_sweep(readings, setup);
  EXPECT_EQ(r.left_out, 1U);
  EXPECT_EQ(r.places, 11U);
  EXPECT_NEAR(r.eccentricity.value.value(), 10e-6, exact_m);
  EXPECT_LT(um(r.tir.value), 20.1);
  EXPECT_NE(r.lowest, 0U);
}

TEST(Sweep, NamesNoHighSpotWhereThereIsNone) {
  const SweepResult oval =
      evaluate_sweep(swept({.mean_m = 5e-4, .harmonics = {{2, 20e-6, 10}}}, even_places(12)), {});
  EXPECT_FALSE(oval.high_spot);
  EXPECT_FALSE(oval.high_spot_u);
  const SweepResult flat = evaluate_sweep(swept({.mean_m = 5e-4}, even_places(12)), {});
  EXPECT_FALSE(flat.high_spot);
  EXPECT_EQ(flat.tir.value.value(), 0);
  const SweepResult zeros = evaluate_sweep(swept({}, even_places(4)), {});
  EXPECT_FALSE(zeros.high_spot);
}

TEST(Sweep, NamesNoHighSpotWhenTheInstrumentCanNotTellItFromZero) {
  const Instrument coarse{.id = "coarse", .graduation = metres(50e-6)};
  const auto readings = swept({.harmonics = {{1, 12e-6, 50}}}, even_places(4));
  EXPECT_TRUE(evaluate_sweep(readings, {}).high_spot);
  const SweepResult r = evaluate_sweep(readings, {}, &coarse);
  EXPECT_FALSE(r.high_spot);
  EXPECT_EQ(r.scatter_from, ScatterFrom::instrument);
  const Instrument fine{.id = "fine", .graduation = metres(2e-6)};
  ASSERT_TRUE(evaluate_sweep(readings, {}, &fine).high_spot);
}

TEST(Sweep, ThreeReadingsWithoutAnInstrumentStateNoUncertainty) {
  const auto readings = swept({.harmonics = {{1, 12e-6, 50}}}, even_places(3));
  const SweepResult r = evaluate_sweep(readings, {});
  EXPECT_NEAR(r.eccentricity.value.value(), 12e-6, exact_m);
  EXPECT_FALSE(r.vector_uncertainty);
  EXPECT_FALSE(r.high_spot);
  EXPECT_FALSE(r.tir_u);
  EXPECT_FALSE(tir_measured(r));
  EXPECT_FALSE(eccentricity_measured(r));
  const Instrument fine{.id = "fine", .graduation = metres(2e-6)};
  const SweepResult with = evaluate_sweep(readings, {}, &fine);
  ASSERT_TRUE(with.vector_uncertainty);
  EXPECT_TRUE(with.high_spot);
}

TEST(Sweep, ASpoiledReadingFailsTheTirThatWasReadInsteadOfBlurringIt) {
  const Instrument dial{.id = "dial", .graduation = metres(10e-6)};
  auto readings = swept({.harmonics = {{1, 75e-6, 90}}}, even_places(12));
  readings[5].reading = metres(230e-6);
  const SweepResult r = evaluate_sweep(readings, {}, &dial);
  ASSERT_EQ(r.suspects.size(), 1U);
  EXPECT_EQ(r.suspects.front().index, 5U);
  const auto tir = tir_measured(r);
  ASSERT_TRUE(tir);
  EXPECT_NEAR(tir->u.value(), std::sqrt(2.0) * 10e-6 / std::sqrt(12.0), 1e-15);
  const Limit<Tir> seven_thou{.lower = {}, .upper = Tir{metres(7 * 25.4e-6)}};
  EXPECT_EQ(decide(seven_thou, *tir, Guarded{}).outcome, Outcome::fail);
}

TEST(Sweep, InstrumentUncertaintySpreadsOverEvenPlacesAsTheFormulaSays) {
  const Instrument dial{.id = "dial", .graduation = metres(10e-6)};
  const SweepResult r = evaluate_sweep(swept({.harmonics = {{1, 80e-6, 50}}}, even_places(4)), {}, &dial);
  const double u_m = 10e-6 / std::sqrt(12.0);
  ASSERT_TRUE(r.reading_u);
  EXPECT_NEAR(r.reading_u->value(), u_m, 1e-15);
  ASSERT_TRUE(r.vector_uncertainty);
  EXPECT_NEAR(r.vector_uncertainty->u.value(), u_m * std::sqrt(2.0 / 4.0), 1e-15);
  EXPECT_NEAR(r.vector_uncertainty->region_factor, -2 * std::log(0.05), 1e-12);  // χ² with two dof
  ASSERT_TRUE(r.tir_u);
  EXPECT_NEAR(r.tir_u->value(), u_m * std::sqrt(2.0), 1e-15);
  EXPECT_TRUE(std::isinf(r.tir_dof));
  ASSERT_TRUE(r.high_spot_u);
  EXPECT_NEAR(r.high_spot_u->value(), u_m * std::sqrt(0.5) / 80e-6, 1e-9);
}

TEST(Sweep, PermissibleErrorAddsToTheDoubtHoweverSmallTheResiduals) {
  Instrument dial{.id = "dial", .graduation = metres(1e-6)};
  const auto readings = swept(three_orders, even_places(12));
  const double without = evaluate_sweep(readings, {}, &dial).vector_uncertainty->u.value();
  dial.mpe = metres(12e-6);
  const double with = evaluate_sweep(readings, {}, &dial).vector_uncertainty->u.value();
  EXPECT_NEAR(with * with, without * without + 12e-6 * 12e-6 / 3 * 2 / 12, 1e-18);
}

TEST(Sweep, CountsUnexplainedResidualsOfFourReadings) {
  const Instrument dial{.id = "dial", .graduation = metres(2e-6)};
  const KnownSurface oval{.harmonics = {{1, 80e-6, 50}, {2, 15e-6, 0}}};
  EXPECT_TRUE(evaluate_sweep(swept(oval, even_places(4)), {}, &dial).residuals_unexplained);
  const KnownSurface round{.harmonics = {{1, 80e-6, 50}}};
  EXPECT_FALSE(evaluate_sweep(swept(round, even_places(4)), {}, &dial).residuals_unexplained);
}

TEST(Sweep, CorrectsAStylusAngleByItsCosine) {
  SweepSetup setup;
  setup.lever.stylus = degrees(60);
  const auto readings = swept({.harmonics = {{1, 50.8e-6, 30}}}, even_places(12, 30));
  const SweepResult r = evaluate_sweep(readings, setup);
  EXPECT_NEAR(r.eccentricity.value.value(), 25.4e-6, exact_m);
  EXPECT_NEAR(r.tir.value.value(), 50.8e-6, exact_m);
  setup.lever = {.stylus = degrees(15), .reads_true_at = degrees(15)};
  EXPECT_NEAR(evaluate_sweep(readings, setup).eccentricity.value.value(), 50.8e-6, exact_m);
}

TEST(Sweep, DirectionIsClaimedOnlyForAStatedMount) {
  const auto readings = swept({.harmonics = {{1, 20e-6, 75}}}, even_places(8));
  SweepSetup setup;
  const SweepResult unknown = evaluate_sweep(readings, setup);
  ASSERT_TRUE(unknown.high_spot);  // at the angles as given
  EXPECT_FALSE(claimed_high_spot(unknown));
  setup.mount = Mount::shaft;
  const auto claimed = claimed_high_spot(evaluate_sweep(readings, setup));
  ASSERT_TRUE(claimed);
  EXPECT_NEAR(degrees_of(*claimed), 75, 1e-6);
}

}  // namespace
}  // namespace pumpwright

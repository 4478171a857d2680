#include "engine/seal/film.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/seal/face_load.h"
#include "tests/support/given_liquid.h"
#include "tests/support/given_seal.h"

namespace pumpwright::seal {
namespace {

const testing::ThinningLiquid liquid;

TEST(Film, TheGivenSealIsSolvedWithForcesAndEnergyClosed) {
  const FilmSolution s = solve_film(testing::given_film(), liquid);
  EXPECT_TRUE(s.converged);
  EXPECT_LT(s.force_residual, 1e-10);
  EXPECT_LT(s.energy_residual, 1e-8);
  EXPECT_LT(s.iterations, 30);
  EXPECT_NEAR(s.heat.value(), s.friction.value() * testing::given_film().speed.value(),
              1e-9 * s.heat.value());
  EXPECT_GT(s.contact_share, 0);
  EXPECT_LT(s.contact_share, 1);
  EXPECT_NEAR((s.film_force + s.contact_force) / s.closing, 1, 1e-10);
  EXPECT_GT(s.leakage.value(), 0);
  EXPECT_LE(s.least_film, s.mean_film);
  EXPECT_GE(kelvin_of(s.face_hottest), kelvin_of(s.face_mean));
}

TEST(Film, TheProfileRunsFromInsideToOutsideBetweenTheTwoPressures) {
  const FilmSolution s = solve_film(testing::given_film(), liquid);
  ASSERT_EQ(s.profile.size(), 64U);
  for (std::size_t i = 1; i < s.profile.size(); ++i) {
    EXPECT_GT(s.profile[i].radius, s.profile[i - 1].radius);
    EXPECT_GT(s.profile[i].pressure.value, s.profile[i - 1].pressure.value);
  }
  EXPECT_GT(s.profile.front().pressure.value.value(), 101'325);
  EXPECT_LT(s.profile.back().pressure.value.value(), 601'325);
}

TEST(Film, PressureInsideTurnsTheFlowRound) {
  FilmCase c = testing::given_film();
  c.faces.pressure = PressureSide::inside;
  c.faces.balance_diameter = metres(0.0585);
  c.coning = {};
  const FilmSolution s = solve_film(c, liquid);
  EXPECT_TRUE(s.converged);
  EXPECT_GT(s.leakage.value(), 0);
  EXPECT_GT(s.profile.front().pressure.value, s.profile.back().pressure.value);
}

TEST(Film, AConvergingGapOpensAndADivergingOneShuts) {
  FilmCase c = testing::given_film();
  c.coning = {};
  const FilmSolution parallel = solve_film(c, liquid);
  c.coning.lapped = radians(1e-4);
  const FilmSolution converging = solve_film(c, liquid);
  c.coning.lapped = radians(-1e-4);
  const FilmSolution diverging = solve_film(c, liquid);
  EXPECT_GT(converging.gradient_factor, parallel.gradient_factor);
  EXPECT_LT(diverging.gradient_factor, parallel.gradient_factor);
  EXPECT_GT(converging.separation, parallel.separation);
  EXPECT_GT(diverging.heat, converging.heat);
}

TEST(Film, MoreSpringMeansLessFilmMoreFrictionLessLeak) {
  FilmCase c = testing::given_film();
  const FilmSolution soft = solve_film(c, liquid);
  c.spring = 1.5 * c.spring;
  const FilmSolution hard = solve_film(c, liquid);
  EXPECT_LT(hard.mean_film, soft.mean_film);
  EXPECT_GT(hard.friction, soft.friction);
  EXPECT_GT(kelvin_of(hard.face_mean), kelvin_of(soft.face_mean));
}

TEST(Film, StandingStillItIsAsWarmAsTheChamber) {
  FilmCase c = testing::given_film();
  c.speed = radians_per_second(0);
  const FilmSolution s = solve_film(c, liquid);
  EXPECT_TRUE(s.converged);
  EXPECT_EQ(s.heat.value(), 0);
  EXPECT_NEAR(kelvin_of(s.face_hottest), 353.15, 1e-9);
}

// Friction of summits alone carrying what the film leaves: the hand formula with the K found.
TEST(Film, AThinLiquidRubsAsTheHandFormulaSays) {
  testing::GivenLiquid thin;
  thin.viscosity_pa_s = 1e-9;
  FilmCase c = testing::given_film();
  c.coning = {};
  const FilmSolution s = solve_film(c, thin);
  FaceLoadCase hand{c.faces, pascals(5e5), c.spring, s.gradient_factor, c.asperities->friction, c.speed};
  EXPECT_NEAR(s.gradient_factor, parallel_gradient_factor(c.faces), 1e-4);
  // The hand formula rubs at the mean diameter, the true lever of an even pressure is a little longer.
  const double outer_m = c.faces.outer_diameter.value() / 2;
  const double inner_m = c.faces.inner_diameter.value() / 2;
  const double lever_m =
      2.0 / 3 * (std::pow(outer_m, 3) - std::pow(inner_m, 3)) / (outer_m * outer_m - inner_m * inner_m);
  EXPECT_NEAR(s.heat / face_load(hand).heat, lever_m / ((outer_m + inner_m) / 2), 1e-4);
}

TEST(Film, ColdWellFedFacesDoNotBoilAndHotOnesDo) {
  FilmCase c = testing::given_film();
  c.chamber_temperature = kelvin(293.15);
  const FilmSolution cold = solve_film(c, liquid);
  EXPECT_FALSE(cold.boils);
  EXPECT_EQ(cold.boiling_share, 0);
  c.chamber_temperature = kelvin(393.15);
  const FilmSolution hot = solve_film(c, liquid);
  EXPECT_TRUE(hot.boils);
  EXPECT_GT(hot.boiling_share, 0);
  EXPECT_TRUE(
      std::any_of(hot.profile.begin(), hot.profile.end(), [](const FilmPoint& p) { return p.boils; }));
  EXPECT_TRUE(hot.profile.front().boils);  // the atmosphere's side first
}

TEST(Film, ASealThePressureOpensSaysSo) {
  FilmCase c = testing::given_film();
  c.faces.balance_diameter = metres(0.059);  // balance ratio 0.22
  c.spring = newtons(10);
  c.chamber = {pascals(2'101'325)};
  c.coning = {};
  const FilmSolution s = solve_film(c, liquid);
  EXPECT_TRUE(s.opens);
  EXPECT_FALSE(s.converged);
}

TEST(Film, HotterThanTheDataReachIsNotConverged) {
  FilmCase c = testing::given_film();
  c.chamber = {pascals(8e6)};
  const FilmSolution s = solve_film(c, liquid);
  EXPECT_TRUE(s.beyond_liquid);
  EXPECT_FALSE(s.converged);
}

TEST(Film, TheHottestPlaceEvensOutAlongTheRings) {
  FilmCase c = testing::given_film();
  c.coning = {};
  c.coning.lapped = radians(-1e-4);
  const auto spread = [&] {
    const FilmSolution s = solve_film(c, liquid);
    return kelvin_of(s.face_hottest) - kelvin_of(s.face_mean);
  };
  c.heat.along_the_face = HeatConductance::from_value(0.01);
  const double poor_k = spread();
  c.heat.along_the_face = HeatConductance::from_value(5);
  EXPECT_LT(spread(), poor_k / 3);
}

TEST(Film, ALeakThatCarriesMoreThanTheRingsStaysStable) {
  FilmCase c = testing::given_film();
  c.held_film = metres(20e-6);
  c.coning = {};
  c.heat.along_the_face = HeatConductance::from_value(0);
  const FilmSolution s = solve_film(c, liquid);
  EXPECT_TRUE(s.converged);
  EXPECT_LT(s.energy_residual, 1e-8);
  for (std::size_t i = 1; i < s.profile.size(); ++i)  // warmer all the way along the leak, no zigzag
    EXPECT_LE(kelvin_of(s.profile[i].temperature), kelvin_of(s.profile[i - 1].temperature) + 1e-9);
}

TEST(Film, TooFewIterationsAreSaidNotHidden) {
  const FilmSolution s = solve_film(testing::given_film(), liquid, {64, 2});
  EXPECT_FALSE(s.converged);
}

TEST(Film, ConingSmoothFacesFindTheirOwnFilm) {
  FilmCase c = testing::given_film();
  c.asperities.reset();
  c.coning = {};
  c.coning.lapped = radians(3e-4);
  c.spring = newtons(20);
  c.speed = radians_per_second(0);
  const FilmSolution s = solve_film(c, liquid);
  EXPECT_TRUE(s.converged);
  EXPECT_EQ(s.contact_share, 0);
  EXPECT_NEAR(s.film_force / s.closing, 1, 1e-10);
}

}  // namespace
}  // namespace pumpwright::seal

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/seal/film.h"
#include "tests/support/given_liquid.h"
#include "tests/support/given_seal.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

// Any pump seal of the usual proportions, in liquid that does not boil in the chamber.
seal::FilmCase any_seal() {
  seal::FilmCase c = given_film();
  const double inner_m = between(0.012, 0.08);
  const double width_m = between(0.0015, 0.008);
  const double balance = between(0.6, 1.2);
  const double outer_m = inner_m + 2 * width_m;
  const double ring_m2 = outer_m * outer_m - inner_m * inner_m;
  c.faces = {metres(outer_m), metres(inner_m), metres(std::sqrt(outer_m * outer_m - balance * ring_m2)),
             seal::PressureSide::outside};
  c.spring = newtons(between(0.08e6, 0.3e6) * seal::face_area(c.faces).value());
  c.chamber = {pascals(between(1.02e5, 12e5))};
  c.chamber_temperature = kelvin(between(278, 365));
  c.speed = radians_per_second(between(10, 380));
  c.asperities->roughness = metres(between(0.05e-6, 0.5e-6));
  c.asperities->friction = between(0.02, 0.15);
  c.coning.lapped = radians(between(-1e-4, 1e-4));
  c.coning.by_pressure = between(0, 0.5) * c.coning.by_pressure;
  c.coning.by_heat = between(0, 1) * c.coning.by_heat;
  c.heat.to_chamber = seal::HeatConductance::from_value(between(2, 20));
  return c;
}

TEST(FilmProperty, ForcesAndEnergyCloseOnEverySealThatIsSolvedAndMostAre) {
  const ThinningLiquid liquid;
  const seal::FilmLiquid table(liquid, {pascals(1e6)});
  int tried = 0;
  int solved = 0;
  hold(
      "residuals",
      [&] {
        const seal::FilmCase c = any_seal();
        const seal::FilmSolution s = seal::solve_film(c, table);
        ++tried;
        if (!s.converged) {
          RC_ASSERT(s.opens || s.beyond_liquid);  // never merely given up
          return;
        }
        ++solved;
        RC_ASSERT(s.energy_residual < 1e-8);
        RC_ASSERT(s.force_residual < 1e-8);
        RC_ASSERT(std::fabs(s.heat.value() - s.friction.value() * c.speed.value()) <= 1e-9 * s.heat.value());
        RC_ASSERT(s.leakage.value() > 0);
        RC_ASSERT(s.gradient_factor > 0 && s.gradient_factor < 1);
        RC_ASSERT(s.contact_share >= 0 && s.contact_share <= 1 + 1e-9);
        RC_ASSERT(kelvin_of(s.face_mean) >= kelvin_of(c.chamber_temperature));
        for (const seal::FilmPoint& p : s.profile) {
          RC_ASSERT(p.pressure.value >= c.atmosphere.value - pascals(1e-3));
          RC_ASSERT(p.pressure.value <= c.chamber.value + pascals(1e-3));
          RC_ASSERT(p.film.value() > 0);
        }
      },
      2000);
  EXPECT_GE(solved, tried * 98 / 100) << solved << " of " << tried;
}

TEST(FilmProperty, AHeldParallelGapIsTheClosedForm) {
  hold(
      "closed form",
      [] {
        const double film_m = between(0.2e-6, 20e-6);
        seal::FilmCase c = held_gap(film_m);
        const double inner_m = between(0.02, 0.05);
        c.faces.inner_diameter = metres(inner_m);
        c.faces.outer_diameter = metres(inner_m + between(0.002, 0.03));
        c.faces.balance_diameter = metres(inner_m + 0.001);
        c.chamber = {pascals(between(2e5, 20e5))};
        GivenLiquid liquid;
        liquid.viscosity_pa_s = between(1e-4, 1e-1);
        const double across_pa = (c.chamber.value - c.atmosphere.value).value();
        const double closed_m3_s =
            pi * std::pow(film_m, 3) * across_pa /
            (6 * liquid.viscosity_pa_s * std::log(c.faces.outer_diameter / c.faces.inner_diameter));
        const seal::FilmSolution s = seal::solve_film(c, liquid, {16, 100});
        RC_ASSERT(s.converged);
        RC_ASSERT(std::fabs(s.leakage.value() / closed_m3_s - 1) < 1e-9);
      },
      500);
}

TEST(FilmProperty, TheSameInputGivesTheSameBits) {
  const ThinningLiquid liquid;
  hold(
      "same bits",
      [&] {
        const seal::FilmCase c = any_seal();
        const seal::FilmSolution a = seal::solve_film(c, liquid);
        const seal::FilmSolution b = seal::solve_film(c, liquid);
        RC_ASSERT(a.leakage.value() == b.leakage.value());
        RC_ASSERT(a.heat.value() == b.heat.value());
      },
      50);
}

}  // namespace
}  // namespace pumpwright::testing

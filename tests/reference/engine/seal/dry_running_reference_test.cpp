#include <gtest/gtest.h>

#include "engine/seal/dry_running.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

// 300 W into 80 g of 700 J/(kg K), 180 K to go.
seal::DryRun dry_run(double loss_w_k) {
  const seal::RingMaterial carbon{watts_per_metre_kelvin(10), kilograms_per_cubic_metre(1850),
                                  joules_per_kilogram_kelvin(700)};
  const seal::RingMaterial hard{watts_per_metre_kelvin(120), kilograms_per_cubic_metre(3100),
                                joules_per_kilogram_kelvin(700)};
  return {watts(300),
          kilograms(0.08),
          joules_per_kilogram_kelvin(700),
          seal::HeatConductance::from_value(loss_w_k),
          kelvin(293.15),
          kelvin(473.15),
          square_metres(1.1e-3),
          carbon,
          hard};
}

TEST(DryRunningReference, WithoutLossTheTimeIsHeatOverPower) {
  expect_outside({"adiabatic lump to 180 K", "m c dT / H", Obtained::closed_form, "33.6",
                  seal::time_to_damage(dry_run(0)).lump->value(), "s", 3});
}

TEST(DryRunningReference, WithLossItIsThatOfTheIntegratedHeatBalance) {
  expect_outside({"lump to 180 K with 0.5 W/K lost", live_versions() + ", solve_ivp", Obtained::live,
                  live_words("lump 300 56 0.5 180").at(0), seal::time_to_damage(dry_run(0.5)).lump->value(),
                  "s", 8});
}

// e1 = sqrt(10 1850 700) = 3598.61, e2 = sqrt(120 3100 700) = 16136.91; q = 300 / 1.1e-3 = 272727.3.
TEST(DryRunningReference, TheSkinIsThatOfTwoHalfSpaces) {
  expect_outside({"surface of two half-spaces to 180 K", "pi/4 ((e1 + e2) dT / q)^2, evaluated separately",
                  Obtained::closed_form, "133.25", seal::time_to_damage(dry_run(0)).skin.value(), "s", 4});
}

}  // namespace
}  // namespace pumpwright::testing

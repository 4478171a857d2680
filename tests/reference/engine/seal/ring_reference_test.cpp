#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/seal/ring.h"
#include "tests/support/given_seal.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

TEST(RingReference, ConductanceAndConingAreThoseOfTheIntegratedFin) {
  const std::string source = live_versions() + ", solve_bvp of the fin";
  const seal::Ring ring = carbon_ring();
  for (const double h_w_m2k : {500.0, 6000.0}) {
    const auto words = live_words(fmt::format("fin 0.02445 0.0308 0.012 10 {} 4e-6", h_w_m2k));
    const auto cooling = seal::HeatTransfer::from_value(h_w_m2k);
    const std::string name = fmt::format("carbon ring cooled by {:.0f} W/(m2 K): ", h_w_m2k);
    expect_outside({name + "conductance", source, Obtained::live, words.at(0),
                    seal::heat_conductance(ring, cooling, seal::PressureSide::outside).value(), "W/K", 7});
    expect_outside({name + "coning by heat", source, Obtained::live, words.at(1),
                    seal::thermal_coning(ring, cooling, seal::PressureSide::outside).value(), "rad/K", 7});
  }
}

// p on 9 of 12 mm of a 6.35 x 12 mm section at 27.625 mm: M = 9 (30.8/27.625) 1.5 = 15.0516 mm² per unit
// pressure, I = 6.35 12³/12 = 914.4 mm4, angle = M 27.625² / (E I) = 15.0516 763.141 / (20000 MPa x 914.4)
// rad/MPa.
TEST(RingReference, PressureConingIsTheRingFormulaWorkedOut) {
  expect_outside({"coning of a carbon ring by pressure on 9 of its 12 mm",
                  "M r^2 / (E I), worked out separately", Obtained::closed_form, "-6.2809e-10",
                  seal::pressure_coning(carbon_ring(), metres(0.009), seal::PressureSide::outside).value(),
                  "rad/Pa", 4});
}

}  // namespace
}  // namespace pumpwright::testing

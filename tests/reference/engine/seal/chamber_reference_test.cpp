#include <cmath>

#include <gtest/gtest.h>

#include "engine/seal/chamber_pressure.h"
#include "engine/seal/vapour_margin.h"
#include "tests/support/given_liquid.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

constexpr double psi = 6894.757293168361;

double psig_of(GaugePressure p) {
  return p.value.value() / psi;
}

seal::ChamberPressure chamber(double suction_psig, double discharge_psig, seal::ImpellerBack back) {
  return seal::chamber_pressure({pascals(suction_psig * psi)}, pascals((discharge_psig - suction_psig) * psi),
                                seal::chamber_share(back));
}

TEST(ChamberReference, PrintedExamplesAreReproduced) {
  using seal::ImpellerBack;
  expect_outside({"balance holes, 5 / 95 psig, expected",
                  "guide to the pressure on the seal cavity of centrifugal pumps, worked example",
                  Obtained::read, "14", psig_of(chamber(5, 95, ImpellerBack::balance_holes).expected), "psig",
                  2});
  expect_outside({"balance holes, 10 / 200 psig, high end",
                  "training paper on seal chamber pressure: rule and inputs read, result worked out",
                  Obtained::read, "38.5", psig_of(chamber(10, 200, ImpellerBack::balance_holes).high), "psig",
                  3});
  expect_outside({"back vanes, 10 / 200 psig, largest impeller",
                  "training paper on seal chamber pressure, worked example", Obtained::read, "29",
                  psig_of(chamber(10, 200, ImpellerBack::back_vanes).expected), "psig", 2});
}

// Water at 80 °C boils at 0.4741 bar; here as given numbers, the liquid's own tests stand with the liquids.
TEST(ChamberReference, AMarginIsTheOneWorkedOutByHand) {
  GivenLiquid water;
  water.boiling_k = 384.50;  // at 1.5 bar the water is to boil at 111.35 °C
  water.vapour_slope_k = std::log(1.5 / 0.4741) / (1 / 353.15 - 1 / 384.50);
  water.boiling_k = 1 / (1 / 384.50 - std::log(101'325 / 1.5e5) / water.vapour_slope_k);
  const seal::VapourMargin m = seal::vapour_margin(water, {pascals(1.5e5)}, kelvin(353.15));
  const char* source =
      "1.5 bar over water at 80 °C, which boils at 0.4741 bar and 111.35 °C (IF97, given): arithmetic";
  expect_outside({"margin", source, Obtained::closed_form, "1.026", m.difference.value() / 1e5, "bar", 4});
  expect_outside({"ratio", source, Obtained::closed_form, "3.16", m.ratio, "", 3});
  expect_outside(
      {"degrees to boiling", source, Obtained::closed_form, "31.35", m.to_boiling.value(), "K", 4});
}

}  // namespace
}  // namespace pumpwright::testing

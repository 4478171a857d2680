#include <gtest/gtest.h>

#include "engine/fluid/water.h"
#include "engine/hydraulics/pressure_decay.h"
#include "engine/hydraulics/test_pressure.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace hydraulics;

TEST(PressureHoldReference, OneAndAHalfTimesTheWorkingPressure) {
  HoldBasis basis;
  basis.mawp = GaugePressure{pascals(600 * 6894.757293168)};
  const auto t = test_pressure(HoldRule::mawp_150, basis, {{"casing", {pascals(1e8)}}});
  expect_outside({"test pressure of a casing of 600 psig", "public answers on seals and casings",
                  Obtained::read, "900", t.used.value.value() / 6894.757293168, "psig", 3});
}

// 5 L from 500 to 498 kPa absolute while it cools from 20 to 19 °C, 600 s, 101.325 kPa.
TEST(PressureHoldReference, AGasThatCoolsLeaksLessThanItsGaugeSays) {
  HoldTest t;
  t.atmosphere = {pascals(101'325)};
  t.start = {{pascals(500e3 - 101'325)}, kelvin(293.15)};
  t.end = {{pascals(498e3 - 101'325)}, kelvin(292.15)};
  t.held = seconds(600);
  t.volume = cubic_metres(0.005);
  const auto f = gas_leak(t);
  const std::string source = "p2 T1/T2 and V dp/(t pa) (gas law bulletin, 2004), worked out separately";
  expect_outside({"drop left after temperature", source, Obtained::closed_form, "0.295396",
                  f.drop_by_leak_pa.value / 1000, "kPa", 6});
  expect_outside({"leak at the atmosphere", source, Obtained::closed_form, "1.45767",
                  f.leak_m3_s.value * 60e6, "mL/min", 6});
}

// The leak-down example of a regulation: V 0.002 m³, 50.6 to 25.3 kPa absolute at 293.15 K in 70 s; its
// answer in mol/s follows from p V/(R T).
TEST(PressureHoldReference, ARegulationsLeakDownComesOut) {
  HoldTest t;
  t.atmosphere = {pascals(101'325)};
  t.start = {{pascals(50'600 - 101'325)}, kelvin(293.15)};
  t.end = {{pascals(25'300 - 101'325)}, kelvin(293.15)};
  t.held = seconds(70);
  t.volume = cubic_metres(0.002);
  const double mol_s = gas_leak(t).leak_m3_s.value * 101'325 / (8.314472 * 293.15);
  expect_outside({"molar leak rate", "40 CFR 1065.644: inputs read, answer worked out", Obtained::closed_form,
                  "2.96570e-4", mol_s, "mol/s", 5});
}

// A rigid pipe full of water gains 0.4 to 0.5 MPa a kelvin, says a public guide to pressure tests.
TEST(PressureHoldReference, WaterIsAsStiffAsTables) {
  const auto cold = elasticity_of(*fluid::water(), kelvin(293.15), {pascals(5e6)});
  expect_outside({"bulk modulus of water at 20 C", "handbooks of fluid mechanics, 2.2 GPa",
                  Obtained::remembered, "2.2", cold.bulk_modulus->value() / 1e9, "GPa", 2});
  expect_outside({"volumetric expansion of water at 20 C", "tables of water, 2.07e-4 1/K at the atmosphere",
                  Obtained::remembered, "2.07e-4",
                  elasticity_of(*fluid::water(), kelvin(293.15), {pascals(101'325)}).expansion_per_k, "1/K",
                  2});
}

}  // namespace
}  // namespace pumpwright::testing

#include <cmath>

#include <gtest/gtest.h>

#include "engine/hydraulics/motor_load.h"
#include "engine/hydraulics/viscosity_correction.h"
#include "tests/support/given_pump.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace hydraulics;

Voltage volts(double v) {
  return Voltage::from_value(v);
}

TEST(MotorReference, VoltageUnbalanceExamplesComeOut) {
  expect_outside({"462, 463, 455 V", "NEMA MG 1 example in an engineers' forum", Obtained::read, "1.1",
                  100 * voltage_unbalance({volts(462), volts(463), volts(455)}), "%", 2});
  expect_outside({"460, 467, 450 V", "public calculator by the NEMA MG 1 method", Obtained::read, "1.96",
                  100 * voltage_unbalance({volts(460), volts(467), volts(450)}), "%", 3});
  expect_outside({"480, 476, 472 V", "article on NEMA MG 1 limits", Obtained::read, "0.84",
                  100 * voltage_unbalance({volts(480), volts(476), volts(472)}), "%", 2});
  expect_outside(
      {"203, 210, 212 V", "relay maker's manual, NEMA MG 1 formula (2010); prints 2.5 of 5.3/208.3",
       Obtained::closed_form, "2.56", 100 * voltage_unbalance({volts(203), volts(210), volts(212)}), "%", 3});
}

TEST(MotorReference, DeratingFollowsTheCurve) {
  expect_outside({"derating at 1.96 %", "public calculator by the NEMA MG 1 curve", Obtained::read, "0.95",
                  unbalance_derating(0.0196), "", 2});
  expect_outside({"derating at 3 %", "maker's page on NEMA MG 1", Obtained::read, "0.90",
                  unbalance_derating(0.03), "", 2});
  expect_outside({"derating at 5 %", "NEMA MG 1, figure 14-1", Obtained::remembered, "0.75",
                  unbalance_derating(0.05), "", 2});
}

// 467/473/469 V, 36/38/37 A, power factors 0.75/0.78/0.76; 40 hp of 90.2 %.
TEST(MotorReference, TheFactSheetsExamplesComeOut) {
  const std::string sheet = "US DOE fact sheet on motor load and efficiency";
  const SupplyReading mean{volts((467 + 473 + 469) / 3.0), Current::from_value(37), (0.75 + 0.78 + 0.76) / 3};
  const Power input = input_power(mean, 3);
  expect_outside(
      {"input power of the example", sheet, Obtained::remembered, "22.9", input.value() / 1000, "kW", 2});
  expect_outside({"load by slip: 1800, 1770, 1750 r/min", sheet, Obtained::remembered, "60",
                  100 * load_by_slip(radians_per_second(1800 * rpm), radians_per_second(1770 * rpm),
                                     radians_per_second(1750 * rpm)),
                  "%", 2});
  expect_outside({"load by power", "measured over 40 hp/0.902, worked out", Obtained::closed_form, "0.6949",
                  load_by_power(input, watts(40 * 745.69987158227), 0.902), "", 3});
  expect_outside(
      {"load by line current: 16.5, 24.0, 9.3 A", "energy handbook page: inputs read, worked out",
       Obtained::closed_form, "0.61240",
       load_by_current(Current::from_value(16.5), Current::from_value(24), Current::from_value(9.3)), "", 5});
}

TEST(MotorReference, ThreePhaseInputAndEfficiencyOfACourseExample) {
  const SupplyReading full{volts(415), Current::from_value(70), 0.88};
  const Power input = input_power(full, 3);
  expect_outside({"415 V, 70 A, 0.88", "course slides on motors", Obtained::read, "44.278",
                  input.value() / 1000, "kW", 5});
  expect_outside({"efficiency of 40 kW from that", "the same", Obtained::read, "90.3",
                  100 * 40e3 / input.value(), "%", 3});
}

// Example 1 of the standard: inputs read in public scripts; the answers are recalled and agree.
TEST(MotorReference, TheViscosityStandardsExampleComesOut) {
  const WaterBest best{cubic_metres_per_second(110 / 3600.0), metres(77), radians_per_second(2950 * rpm)};
  const auto f = viscosity_factors(best, square_metres_per_second(120e-6));
  const std::string source = "ANSI/HI 9.6.7, example 1 (inputs read)";
  expect_outside({"B", source, Obtained::remembered, "5.52", f.b, "", 3});
  expect_outside({"C_Q", source, Obtained::remembered, "0.938", f.flow, "", 3});
  expect_outside({"C_eta", source, Obtained::remembered, "0.738", f.efficiency, "", 3});
  expect_outside({"head at 0.6 of the best flow, 87.3 m on water", source, Obtained::remembered, "83.6",
                  87.3 * f.head_at(0.6), "m", 3});
  expect_outside({"head at 1.2 of it, 68.9 m on water", source, Obtained::remembered, "64.0",
                  68.9 * f.head_at(1.2), "m", 3});
  const double power_kw = 110 * f.flow * 77 * f.head_at(1) * 0.9 / (367 * 0.68 * f.efficiency);
  expect_outside({"power at the best flow", source, Obtained::remembered, "36.4", power_kw, "kW", 3});
}

TEST(MotorReference, TheUsFormOfBIsThatOfTheMetricOneToItsRounding) {
  const WaterBest best{cubic_metres_per_second(110 / 3600.0), metres(77), radians_per_second(2950 * rpm)};
  const double gpm = 110 / 3600.0 / (3.785411784e-3 / 60), ft = 77 / 0.3048;
  const double us =
      26.6 * std::sqrt(120.0) * std::pow(ft, 0.0625) / (std::pow(gpm, 0.375) * std::pow(2950, 0.25));
  EXPECT_NEAR(viscosity_factors(best, square_metres_per_second(120e-6)).b / us, 1, 0.005);
}

// Example 2: 100 m³/h and 70 m wanted on 120 cSt.
TEST(MotorReference, FromAThickDutyToWater) {
  const auto d =
      water_duty(cubic_metres_per_second(100 / 3600.0), metres(70), square_metres_per_second(120e-6));
  const std::string source =
      "ANSI/HI 9.6.7, example 2: inputs read, formula remembered, worked out separately";
  expect_outside(
      {"flow on water", source, Obtained::closed_form, "107.057", d.flow.value() * 3600, "m3/h", 6});
  expect_outside({"head on water", source, Obtained::closed_form, "74.940", d.head.value(), "m", 5});
}

}  // namespace
}  // namespace pumpwright::testing

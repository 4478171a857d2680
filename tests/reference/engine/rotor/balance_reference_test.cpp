#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "engine/rotor/balance_key.h"
#include "engine/rotor/balance_solution.h"
#include "engine/rotor/balance_tolerance.h"
#include "engine/rotor/balance_trial.h"
#include "tests/support/outside_check.h"

namespace pumpwright::rotor {
namespace {

using testing::expect_outside;
using testing::Obtained;

constexpr double pound_kg = 0.45359237;
constexpr double ounce_inch_kg_m = pound_kg / 16 * 0.0254;

Speed rpm(double n) {
  return radians_per_second(n * pi / 30);
}

TEST(BalanceReference, TheInchFormOfThePermissibleUnbalance) {
  const Unbalance u = permissible_unbalance({kilograms(pound_kg), rpm(1), metres_per_second(1e-3)});
  expect_outside(
      {"permissible unbalance of 1 lb at 1 r/min, G 1",
       "6.0153 G W/N oz·in in a discussion of ISO 1940 and API 610 grades, eng-tips.com thread 205881; "
       "6.015 in energy-tech.com article 18389",
       Obtained::read, "6.0153", u.value() / ounce_inch_kg_m, "oz·in", 5});
}

TEST(BalanceReference, TheStandardsTurbineRotor) {
  const std::string source =
      "ISO 1940-1:2003 (now ISO 21940-11), example of a turbine rotor: 3600 kg, 3000 r/min, G 2.5, bearings "
      "1500 "
      "and 900 mm from the centre of mass";
  const Unbalance u = permissible_unbalance({kilograms(3600), rpm(3000), metres_per_second(2.5e-3)});
  const auto share = tolerance_at_bearings(u, {metres(0), metres(2.4), metres(1.5)});
  expect_outside({"U_per", source, Obtained::remembered, "28.6", u.value() * 1e3, "kg·mm", 3});
  expect_outside(
      {"U_per at bearing A", source, Obtained::remembered, "10.7", share.a.value() * 1e3, "kg·mm", 3});
  expect_outside(
      {"U_per at bearing B", source, Obtained::remembered, "17.9", share.b.value() * 1e3, "kg·mm", 3});
}

TEST(BalanceReference, OneRotorOfTwoKilograms) {
  const Unbalance u = permissible_unbalance({kilograms(2), rpm(3000), metres_per_second(2.5e-3)});
  expect_outside({"permissible unbalance of 2 kg at 3000 r/min, G 2.5",
                  "1000 G m/ω of \"For Impeller Balancing\", scribd.com 438771871 (inputs read there): 50/π",
                  Obtained::closed_form, "15.915494309", u.value() * 1e6, "g·mm", 11});
}

struct Weighed {
  double mass;
  double angle_deg;
};

// Correction as mass at the trial weight's radius.
Weighed correction(const BalanceRuns& data, std::size_t plane) {
  const auto solution = solve_balance(data, influence_of(data));
  const auto u = unbalance_of(solution.correction[plane], data.sense);
  return {u.amount.value(), degrees_of(u.place)};
}

BalanceRun run(std::vector<FittedWeight> fitted, std::vector<VibrationVector> readings) {
  return {std::move(fitted), std::move(readings)};
}

VibrationVector at(double amplitude, double phase_deg) {
  return {amplitude, degrees(phase_deg)};
}

FittedWeight weight(std::size_t plane, double amount, double angle_deg) {
  return {plane, {kilogram_metres(amount), degrees(angle_deg)}, false};
}

// The state to be corrected has no trial weight on it.
BalanceRuns with_last_as_found(BalanceRuns data) {
  data.runs.push_back(data.runs.front());
  return data;
}

TEST(BalanceReference, OnePlaneByTheVectorTriangle) {
  BalanceRuns data;
  data.sensors = {std::nullopt};
  data.runs = {run({}, {at(7, 160)}), run({weight(0, 100, 0)}, {at(5, 70)})};
  const Weighed found = correction(with_last_as_found(data), 0);
  const std::string source =
      "a public article on balancing by vectors: 7 mil at 160°, 100 g, then 5 mil at 70°";
  // The page measures the triangle with ruler and protractor: 9 mil for √74.
  expect_outside({"correction mass, drawn", source, Obtained::read, "77.77", found.mass, "g", 1});
  expect_outside(
      {"angle from the trial weight, drawn", source, Obtained::read, "35", 360 - found.angle_deg, "deg", 1});
  // The two vectors stand at right angles, so the triangle is exact: 700/√74 and atan(5/7).
  const std::string exact = source + ": the right-angled triangle of the same numbers";
  expect_outside({"correction mass", exact, Obtained::closed_form, "81.3733471", found.mass, "g", 9});
  expect_outside({"angle from the trial weight", exact, Obtained::closed_form, "35.5376778",
                  360 - found.angle_deg, "deg", 9});
}

TEST(BalanceReference, TwoPlanesOfATextbookTurbine) {
  BalanceRuns data;
  data.planes = 2;
  data.sensors = {std::nullopt, std::nullopt};
  data.runs = {run({}, {at(8.5, 60), at(6.5, 205)}), run({weight(0, 10, 270)}, {at(6.0, 125), at(4.5, 230)}),
               run({weight(1, 12, 180)}, {at(6.0, 35), at(10.5, 160)})};
  const auto solution = solve_balance(with_last_as_found(data), influence_of(with_last_as_found(data)));
  const std::string source = "S. S. Rao, Mechanical Vibrations, two-plane balancing of a turbine rotor";
  const auto left = unbalance_of(solution.remaining[0].value, data.sense);
  const auto right = unbalance_of(solution.remaining[1].value, data.sense);
  expect_outside(
      {"unbalance, left plane", source, Obtained::remembered, "10.0561", left.amount.value(), "oz", 6});
  expect_outside({"its angle", source, Obtained::remembered, "145.5548", degrees_of(left.place), "deg", 7});
  expect_outside(
      {"unbalance, right plane", source, Obtained::remembered, "5.8774", right.amount.value(), "oz", 5});
  expect_outside({"its angle", source, Obtained::remembered, "248.2559", degrees_of(right.place), "deg", 7});
}

TEST(BalanceReference, TwoPlanesOfAnApplicationNote) {
  BalanceRuns data;
  data.planes = 2;
  data.sensors = {std::nullopt, std::nullopt};
  data.runs = {run({}, {at(170, 112), at(53, 78)}), run({weight(0, 1.15, 0)}, {at(235, 94), at(58, 68)}),
               run({weight(1, 1.15, 0)}, {at(185, 115), at(77, 104)})};
  const std::string source =
      "Application note 17-227 \"Static and Dynamic Balancing\", table 2, example 6 (readings as restated in "
      "an open "
      "repository's documentation; results remembered)";
  const Weighed first = correction(with_last_as_found(data), 0);
  const Weighed second = correction(with_last_as_found(data), 1);
  expect_outside({"correction, plane 1", source, Obtained::remembered, "1.979", first.mass, "g", 4});
  expect_outside({"its angle", source, Obtained::remembered, "236.2", first.angle_deg, "deg", 4});
  expect_outside({"correction, plane 2", source, Obtained::remembered, "1.071", second.mass, "g", 4});
  expect_outside({"its angle", source, Obtained::remembered, "121.8", second.angle_deg, "deg", 4});
}

TEST(BalanceReference, TheKeyThatIsNeutralIsAboutTheMeanOfBothKeyways) {
  KeyFitted key;
  key.shaft_diameter = metres(3.25 * 0.0254);
  key.section = key_for_shaft(key.shaft_diameter, KeySystem::inch_square);
  key.seat_length = metres(5 * 0.0254);
  key.hub_length = metres(3 * 0.0254);
  key.key_length = key.seat_length;
  key.density = kilograms_per_cubic_metre(7850);
  const auto neutral = unbalance_of_key(key).neutral_length;
  ASSERT_TRUE(neutral);
  expect_outside({"neutral key length of a 5 in seat and a 3 in hub",
                  "a public article on couplings: half the sum of both keyways", Obtained::read, "4",
                  neutral->value() / 0.0254, "in", 1});
}

TEST(BalanceReference, ATrialWeightPullsATenthOfTheRotorsWeight) {
  const Mass m = trial_mass(kilograms(50), 1, metres(0.2), rpm(1500));
  expect_outside({"force of the trial weight over the rotor's weight", "habit of the trade: a tenth",
                  Obtained::common_practice, "0.1",
                  centrifugal_force(kilogram_metres(m.value() * 0.2), rpm(1500)).value() / (50 * 9.80665), "",
                  1});
}

}  // namespace
}  // namespace pumpwright::rotor

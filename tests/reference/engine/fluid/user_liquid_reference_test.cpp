#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/fluid/known_range.h"
#include "engine/fluid/saturation.h"
#include "engine/fluid/vapour_pressure_curve.h"
#include "engine/fluid/viscosity_curve.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace fluid;

Temperature celsius(double c) {
  return kelvin(celsius_zero_k + c);
}

TEST(UserLiquidReference, ViscosityOfAnOilBetweenItsTwoPoints) {
  const ViscosityCurve oil(
      {{{celsius(40), square_metres_per_second(32e-6)}, {celsius(100), square_metres_per_second(5.4e-6)}}});
  const double nu_mm2_s = oil.at(celsius(80)).value() * 1e6;
  expect_outside({"oil of 32 mm²/s at 40 °C and 5.4 at 100 °C: at 80 °C",
                  "a public restatement of ASTM D341 with this worked example", Obtained::read, "8.5",
                  nu_mm2_s, "mm²/s", 2});
  expect_outside({"the same, more digits",
                  "ASTM D341 evaluated separately, without the term that counts below 2 mm²/s",
                  Obtained::closed_form, "8.5332", nu_mm2_s, "mm²/s", 4});
}

// The standard's own way back from Z to viscosity is an approximation; how far it is from solving for it.
TEST(UserLiquidReference, TheStandardsWayBackBelowTwoSquareMillimetres) {
  const ViscosityCurve thin(
      {{{celsius(20), square_metres_per_second(1.5e-6)}, {celsius(100), square_metres_per_second(0.4e-6)}}});
  for (const double c : {30.0, 50.0, 70.0, 90.0}) {
    const double nu = thin.at(celsius(c)).value() * 1e6;
    const double x = nu + std::exp(-1.47 - 1.84 * nu - 0.51 * nu * nu);
    const double standard = x - std::exp(-0.7487 + x * (-3.295 + x * (0.6119 - x * 0.3193)));
    expect_outside({"thin oil: viscosity by the standard's way back from Z",
                    "ASTM D341, in a public restatement", Obtained::read, std::to_string(standard), nu,
                    "mm²/s", 3});
  }
}

// Antoine's constants for water, 1 °C to 100 °C, in mmHg and °C.
TEST(UserLiquidReference, AntoineOfWaterIsFoundAgain) {
  const auto pascals_at = [](double c) {
    return 133.322387415 * std::pow(10, 8.07131 - 1730.63 / (233.426 + c));
  };
  std::vector<VapourPressurePoint> points;
  for (const double c : {5.0, 30.0, 60.0, 95.0})
    points.push_back({celsius(c), {pascals(pascals_at(c))}});
  const VapourPressureCurve curve(points);
  for (const double c : {10.0, 47.0, 80.0})
    expect_outside({"water by Antoine's constants, fitted through four points",
                    "Antoine: log10 p = 8.07131 - 1730.63/(233.426 + t), mmHg and °C", Obtained::closed_form,
                    std::to_string(pascals_at(c)), curve.pressure(celsius(c)).value.value(), "Pa", 9});
}

TEST(UserLiquidReference, LeastSquaresOfScatteredPointsAgreesWithSciPy) {
  std::vector<VapourPressurePoint> points;
  std::vector<double> pairs;
  int sign = 1;
  for (double t_k = 290; t_k <= 400; t_k += 10) {
    const double p_pa = water_saturation_pressure(kelvin(t_k)).value.value() * (1 + 0.01 * sign);
    points.push_back({kelvin(t_k), {pascals(p_pa)}});
    pairs.push_back(t_k);
    pairs.push_back(p_pa);
    sign = -sign;
  }
  const VapourPressureCurve curve(points);
  const SampleFile file(pairs);
  const auto words = live_words("antoine '" + file.path() + "'");
  ASSERT_EQ(words.size(), 3U);
  for (const double t_k : {300.0, 345.0, 390.0}) {
    const double theirs = std::exp(std::stod(words[0]) - std::stod(words[1]) / (t_k + std::stod(words[2])));
    expect_outside({"Antoine curve through 12 scattered points", live_versions() + ", least_squares",
                    Obtained::live, std::to_string(theirs), curve.pressure(kelvin(t_k)).value.value(), "Pa",
                    6});
  }
}

// n-heptane boils at 371.53 K under 101.325 kPa and has 6.09 kPa at 25 °C: the line through both.
TEST(UserLiquidReference, ClausiusClapeyronBetweenTwoPoints) {
  const VapourPressureCurve line({{celsius(25), {pascals(6090)}}, {kelvin(371.53), {pascals(101'325)}}});
  expect_outside({"n-heptane at 60 °C from its boiling point and 25 °C", "handbook value, 28.0 kPa",
                  Obtained::remembered, "28.0e3", line.pressure(celsius(60)).value.value(), "Pa", 1});
}

}  // namespace
}  // namespace pumpwright::testing

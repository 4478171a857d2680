// Uncertainty, decision, stylus angle and expansion against published figures.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/metrology/decision.h"
#include "engine/metrology/sweep.h"
#include "engine/metrology/temperature.h"
#include "engine/metrology/uncertainty_budget.h"
#include "tests/support/outside_check.h"

namespace pumpwright {
namespace {

using namespace testing;

// JCGM 100:2008 (GUM), H.1: end gauge of 50 mm against a standard. Inputs and results as read in test data of
// public programs that implement the GUM.
TEST(GumH1, EndGaugeCalibration) {
  const std::string source = "JCGM 100:2008 (GUM), H.1, read in public test data";
  const double standard_m = 50.000623e-3;
  const UncertaintyBudget budget{
      .contributions = {
          {.name = "standard", .u = metres(25e-9), .dof = 18},
          {.name = "comparison", .u = metres(9.7e-9), .dof = 25.6},
          {.name = "expansion difference", .u = metres(standard_m * 0.1 * 0.58e-6), .dof = 50},
          {.name = "temperature difference", .u = metres(standard_m * 11.5e-6 * 0.029), .dof = 2}}};
  const auto nm = [](Length length) { return length.value() * 1e9; };
  const auto row = [&](const std::string& what, const std::string& published, double computed,
                       const std::string& unit, int digits) {
    expect_outside({.what = "GUM H.1: " + what,
                    .source = source,
                    .obtained = Obtained::read,
                    .published = published,
                    .computed = computed,
                    .unit = unit,
                    .digits_required = digits});
  };
  row("contribution of the expansion difference", "2.9", nm(budget.contributions[2].u), "nm", 2);
  row("contribution of the temperature difference", "16.6", nm(budget.contributions[3].u), "nm", 2);
  row("combined standard uncertainty", "32", nm(budget.standard()), "nm", 2);
  row("effective degrees of freedom (printed from rounded contributions)", "16.7", budget.effective_dof(), "",
      2);
  row("coverage factor for 99 %", "2.92", budget.coverage_factor(0.99), "", 3);
  row("expanded uncertainty for 99 %", "93", nm(budget.expanded(0.99)), "nm", 2);
}

// JCGM 106:2012, worked conformance probabilities. The voltages and viscosities stand here as plain numbers.
TEST(Jcgm106, ConformanceProbabilities) {
  const std::string source = "JCGM 106:2012, worked examples of clause 7";
  const decision_si::Input breakdown{.lower = {}, .upper = -5.40, .value = -5.47, .u = 0.05, .dof = HUGE_VAL};
  expect_outside({.what = "one-sided: breakdown voltage",
                  .source = source,
                  .obtained = Obtained::remembered,
                  .published = "0.92",
                  .computed = decision_si::conformance_probability(breakdown),
                  .unit = "",
                  .digits_required = 2});
  const decision_si::Input viscosity{.lower = 12.5, .upper = 16.3, .value = 13.6, .u = 1.8, .dof = HUGE_VAL};
  expect_outside({.what = "two-sided: oil viscosity",
                  .source = source,
                  .obtained = Obtained::remembered,
                  .published = "0.66",
                  .computed = decision_si::conformance_probability(viscosity),
                  .unit = "",
                  .digits_required = 2});
}

TEST(Iso14253, GuardFactor) {
  const Limit<Length> limit{.lower = {}, .upper = metres(10)};
  const auto verdict = decide(limit, Measured<Length>{.value = metres(5), .u = metres(1)}, Guarded{});
  // The standard prints the quantile 1.6449 rounded up.
  expect_outside({.what = "guard band factor for 95 %, one-sided",
                  .source = "ISO 14253-1:2017, default rule",
                  .obtained = Obtained::remembered,
                  .published = "1.65",
                  .computed = verdict.guard.value(),
                  .unit = "",
                  .digits_required = 2});
}

double lever_factor(double stylus_deg) {
  SweepSetup setup;
  setup.lever.stylus = degrees(stylus_deg);
  std::vector<SweepReading> readings;
  for (int i = 0; i < 12; ++i)
    readings.push_back({degrees(30.0 * i), metres(1e-3 * std::cos(pi / 6 * i))});
  return evaluate_sweep(readings, setup).eccentricity.value.value() / 1e-3;
}

TEST(CosineError, ShopTable) {
  // The table cuts off some entries instead of rounding them, hence two digits at the least.
  const std::vector<std::pair<double, std::string>> table{{10, "0.98"}, {20, "0.94"}, {30, "0.87"},
                                                          {40, "0.77"}, {50, "0.64"}, {60, "0.50"}};
  for (const auto& [angle_deg, factor] : table) {
    expect_outside({.what = "true movement per reading, lever at " + std::to_string(int(angle_deg)) + " deg",
                    .source =
                        "\"Cosine Error in Indicator Readings\", cncexpo.com; 30 and 40 deg as in a second "
                        "table",
                    .obtained = Obtained::read,
                    .published = factor,
                    .computed = lever_factor(angle_deg),
                    .unit = "",
                    .digits_required = 2});
  }
  expect_outside({.what = "lever at 60 deg showing 0.004 in",
                  .source = "\"Cosine Error in Indicator Readings\", cncexpo.com, worked example",
                  .obtained = Obtained::read,
                  .published = "0.002",
                  .computed = 0.004 * lever_factor(60),
                  .unit = "in",
                  .digits_required = 1});
}

TEST(Iso1, LengthsComeBackToTwentyDegrees) {
  struct Row {
    const char* material;
    double alpha;
    const char* grown_mm;  // 100 mm (1 + α · 60 K)
  };
  for (const Row& row : {Row{"316 stainless, 15.9e-6 1/K", 15.9e-6, "100.0954"},
                         Row{"grey iron, 11.4e-6 1/K", 11.4e-6, "100.0684"}}) {
    const Warmth at_80{kelvin(353.15), kelvin_step(0), per_kelvin(row.alpha), per_kelvin(0)};
    const auto size = at_reference_temperature({metres(std::stod(row.grown_mm) * 1e-3), metres(0)}, at_80);
    expect_outside({.what = std::string("100 mm at 20 degC read at 80 degC: ") + row.material,
                    .source = "ΔL = α L ΔT about the reference temperature of ISO 1; α from public tables",
                    .obtained = Obtained::closed_form,
                    .published = "100.000000000",
                    .computed = size.value.value() * 1e3,
                    .unit = "mm",
                    .digits_required = 12});
  }
}

// ISO 12181-1 parameters of the least-squares circle, where the closed form is known: a surface of one order
// k > 1 has RONt = 2a and RONq = a/√2 with dense even places.
TEST(LeastSquaresCircle, ClosedForms) {
  std::vector<SweepReading> readings;
  for (int i = 0; i < 3600; ++i) {
    const double theta = 2 * pi * i / 3600;
    readings.push_back({radians(theta), metres(30e-6 * std::cos(theta - 0.7) + 5e-6 * std::cos(4 * theta))});
  }
  const SweepResult r = evaluate_sweep(readings, {});
  const auto row = [](const char* what, const char* published, double computed) {
    expect_outside(
        {.what = what,
         .source = "least-squares reference circle (ISO 12181-1 parameters) of a four-lobed surface",
         .obtained = Obtained::closed_form,
         .published = published,
         .computed = computed,
         .unit = "µm",
         .digits_required = 12});
  };
  row("RONt = 2a", "10.0000000000", r.ront.value() * 1e6);
  row("RONq = a/√2", "3.53553390593", r.ronq.value() * 1e6);
  row("eccentricity", "30.0000000000", r.eccentricity.value.value() * 1e6);
}

}  // namespace
}  // namespace pumpwright

#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "engine/assembly/chain.h"
#include "engine/assembly/monte_carlo.h"
#include "tests/support/outside_check.h"
#include "tests/support/thread_executor.h"

namespace pumpwright::testing {
namespace {

constexpr double inch = 0.0254;
const std::string shigley = "Shigley's Mechanical Engineering Design, ch. 1, grip-and-gap example";

Link grip(const char* name, double coefficient, double nominal_in, double tolerance_in, Spread spread) {
  Link link;
  link.name = name;
  link.coefficient = coefficient;
  link.nominal = metres(nominal_in * inch);
  link.lower_deviation = metres(-tolerance_in * inch);
  link.upper_deviation = metres(tolerance_in * inch);
  link.spread = spread;
  return link;
}

// w = a - b - c - d
Chain grip_and_gap(Spread spread, double a_in = 1.750) {
  Chain chain;
  chain.links = {grip("a", 1, a_in, 0.003, spread), grip("b", -1, 0.750, 0.001, spread),
                 grip("c", -1, 0.120, 0.005, spread), grip("d", -1, 0.875, 0.001, spread)};
  return chain;
}

double inches(Length length) {
  return length.value() / inch;
}

TEST(StackReference, GripAndGapOfTheTextbook) {
  const ChainAnalysis a = analyse(grip_and_gap(Spread::normal));
  expect_outside({"grip and gap: mean", shigley, Obtained::remembered, "0.005", inches(a.mean), "in", 1});
  expect_outside(
      {"grip and gap: smallest gap", shigley, Obtained::remembered, "-0.005", inches(a.worst_min), "in", 1});
  expect_outside(
      {"grip and gap: largest gap", shigley, Obtained::remembered, "0.015", inches(a.worst_max), "in", 2});
  const ChainAnalysis cured = analyse(grip_and_gap(Spread::normal, 1.758));
  expect_outside({"grip and gap: smallest gap after the cure", shigley, Obtained::remembered, "0.003",
                  inches(cured.worst_min), "in", 1});
  expect_outside({"grip and gap: root sum of squares", "sqrt(3^2 + 1^2 + 5^2 + 1^2) = 6 exactly",
                  Obtained::closed_form, "0.006", inches(a.rss_half_width), "in", 1});
  EXPECT_NEAR(inches(a.mean), 0.005, 1e-14);
  EXPECT_NEAR(inches(a.worst_min), -0.005, 1e-14);
  EXPECT_NEAR(inches(cured.worst_min), 0.003, 1e-14);
  EXPECT_NEAR(inches(a.rss_half_width), 0.006, 1e-14);
}

TEST(StackReference, NormalGapProbabilitiesAreExact) {
  Chain chain = grip_and_gap(Spread::normal);
  chain.upper_limit = metres(0);
  expect_outside({"grip and gap, normal: P(w < 0)", "standard normal, Phi(-2.5)", Obtained::closed_form,
                  "0.00620967", *analyse(chain).exact_probability_inside, "", 6});
  chain.upper_limit = metres(0.003 * inch);
  expect_outside({"grip and gap, normal: P(w < 0.003)", "standard normal, Phi(-1)", Obtained::closed_form,
                  "0.15865525", *analyse(chain).exact_probability_inside, "", 8});
}

TEST(StackReference, RectangularSdIsExact) {
  expect_outside({"grip and gap, rectangular: sd", "0.006 / sqrt(3)", Obtained::closed_form, "0.00346410",
                  inches(*analyse(grip_and_gap(Spread::rectangular)).sd), "in", 6});
}

// By sampling: 4e6 samples put four standard errors at 6e-4 and below.
TEST(StackReference, SampledProbabilitiesMeetTheExactConvolution) {
  ThreadExecutor executor(2);
  const std::string convolution = "exact convolution of four rectangles (inclusion and exclusion)";
  const auto sampled = [&](Chain chain, double limit_in) {
    chain.upper_limit = metres(limit_in * inch);
    return *simulate(chain, {4'000'000, 20}, executor).probability_inside;
  };
  const SampledProbability below_zero = sampled(grip_and_gap(Spread::rectangular), 0);
  const SampledProbability below_limit = sampled(grip_and_gap(Spread::rectangular), 0.003);
  const SampledProbability normal = sampled(grip_and_gap(Spread::normal), 0.003);
  EXPECT_NEAR(below_zero.value, 0.0805555556, 4 * below_zero.standard_error);
  EXPECT_NEAR(below_limit.value, 0.3027777778, 4 * below_limit.standard_error);
  EXPECT_NEAR(normal.value, 0.15865525, 4 * normal.standard_error);
  expect_outside({"grip and gap, rectangular: P(w < 0), 4e6 samples", convolution, Obtained::closed_form,
                  "0.0805555556", below_zero.value, "", 2});
  expect_outside({"grip and gap, rectangular: P(w < 0.003), 4e6 samples", convolution, Obtained::closed_form,
                  "0.3027777778", below_limit.value, "", 2});
}

}  // namespace
}  // namespace pumpwright::testing

#include <cstdlib>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/hydraulics/acceptance_chance.h"
#include "tests/support/given_pump.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using hydraulics::Grade;
using hydraulics::tolerance_of;

TEST(AcceptanceReference, Grade2BIsClass2OfTheEditionThatWasRead) {
  const auto t = tolerance_of(Grade::g2B);
  const std::string source = "ISO 9906:1999, class 2, as restated by a public lexicon of pumps";
  expect_outside({"2B: flow", source, Obtained::read, "8", 100 * t.flow_high, "%", 1});
  expect_outside({"2B: head", source, Obtained::read, "5", 100 * t.head_high, "%", 1});
  expect_outside({"2B: efficiency", source, Obtained::read, "-5", 100 * t.efficiency_low, "%", 1});
  expect_outside({"1B: head", "ISO 9906:1999, class 1, as restated there", Obtained::read, "3",
                  100 * tolerance_of(Grade::g1B).head_high, "%", 1});
}

TEST(AcceptanceReference, SmallPumpsHaveWiderLimits) {
  const auto t = tolerance_of(Grade::small, watts(5000));
  const std::string source = "ANSI/HI 14.6-2011 as restated in a maker's trade article (2015)";
  expect_outside({"below 10 kW: flow", source, Obtained::read, "10", 100 * t.flow_high, "%", 2});
  expect_outside({"below 10 kW: head", source, Obtained::read, "8", 100 * t.head_high, "%", 1});
  expect_outside({"5 kW: efficiency", "-[10 (1 - P/10) + 7] %", Obtained::remembered, "-12",
                  100 * t.efficiency_low, "%", 2});
  expect_outside(
      {"5 kW: power", "sqrt(7^2 + 12^2) %", Obtained::closed_form, "13.892", 100 * t.power_high, "%", 5});
}

TEST(AcceptanceReference, TheOtherGradesAreRemembered) {
  const std::string source = "ISO 9906:2012, Table 8";
  expect_outside(
      {"1U: head", source, Obtained::remembered, "6", 100 * tolerance_of(Grade::g1U).head_high, "%", 1});
  expect_outside(
      {"1B: power", source, Obtained::remembered, "4", 100 * tolerance_of(Grade::g1B).power_high, "%", 1});
  expect_outside(
      {"2U: flow", source, Obtained::remembered, "16", 100 * tolerance_of(Grade::g2U).flow_high, "%", 2});
  expect_outside({"3B: efficiency", source, Obtained::remembered, "-7",
                  100 * tolerance_of(Grade::g3B).efficiency_low, "%", 1});
}

// NumPy draws the same instruments and asks directly whether a bar is cut.
TEST(AcceptanceReference, TheChanceOfTouchingTheCrossIsNumPys) {
  const hydraulics::Guarantee promised{cubic_metres_per_second(0.01), metres(30), {}, {}};
  SerialExecutor serial;
  for (const double scale : {0.96, 0.965, 0.97}) {
    const auto words = live_words(fmt::format("grade_chance {} 200000 1", scale));
    const hydraulics::PerformanceModel model(measured_test(scale));
    const auto ours = hydraulics::sample_acceptance(model, promised, {.own = {}}, {20'000, 1}, serial);
    const double theirs = std::strtod(words.at(0).c_str(), nullptr);
    // Five standard errors of both, at most 0.0185.
    EXPECT_NEAR(ours.grades[0].chance.value, theirs, 0.0185) << scale;
    const std::string source = live_versions() + ", 200000 draws";
    expect_outside({fmt::format("head at the guaranteed flow, pump at {} of its head: mean", scale), source,
                    Obtained::live, words.at(1), ours.head_mean_m, "m", 4});
    expect_outside({fmt::format("the same: standard deviation", scale), source, Obtained::live, words.at(2),
                    ours.head_sd_m, "m", 2});
  }
}

}  // namespace
}  // namespace pumpwright::testing

#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include "engine/hydraulics/flow_curve.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using hydraulics::CurveKind;
using hydraulics::FlowCurve;

// A student rig's noisy points (open data): flow [L/min] and head [m] to four digits.
const std::vector<double> flow{2, 27, 50, 75, 99, 127, 129, 155, 163, 177, 197, 228, 254};
const std::vector<double> head{3.783, 3.783, 3.783, 3.681, 3.476, 3.272, 3.272,
                               2.556, 2.965, 3.067, 2.352, 1.840, 1.431};

std::string points() {
  return fmt::format("{} {} {}", flow.size(), fmt::join(flow, " "), fmt::join(head, " "));
}

TEST(CurveReference, PolynomialsAreThoseOfNumPy) {
  for (const int degree : {2, 4})
    for (const double at : {2.0, 111.0, 254.0}) {
      const auto words = live_words(fmt::format("polyfit {} {} {}", degree, at, points()));
      const hydraulics::CurveChoice choice{CurveKind::polynomial, degree};
      const auto curve = FlowCurve::through(flow, head, choice);
      const std::string name = fmt::format("degree {} at {} L/min: ", degree, at);
      const std::string source = live_versions() + ", Polynomial.fit";
      expect_outside({name + "head", source, Obtained::live, words.at(0), curve.at(at), "m", 10});
      expect_outside({name + "scatter", source, Obtained::live, words.at(1),
                      hydraulics::residual_sd(curve, flow, head, choice), "m", 9});
    }
}

TEST(CurveReference, TheShapePreservingInterpolantIsThatOfSciPy) {
  const auto curve = FlowCurve::through(flow, head, {CurveKind::pchip, 0});
  for (const double at : {2.5, 128.0, 240.0}) {
    const auto words = live_words(fmt::format("pchip {} {}", at, points()));
    const std::string source = live_versions() + ", PchipInterpolator";
    expect_outside({fmt::format("interpolant at {} L/min", at), source, Obtained::live, words.at(0),
                    curve.at(at), "m", 11});
    expect_outside({fmt::format("its slope at {} L/min", at), source, Obtained::live, words.at(1),
                    curve.slope_at(at), "m/(L/min)", 9});
  }
}

}  // namespace
}  // namespace pumpwright::testing

#include "engine/hydraulics/flow_curve.h"

#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "engine/hydraulics/curve_search.h"
#include "tests/support/refused.h"

namespace pumpwright::hydraulics {
namespace {

const std::vector<double> flow{0, 0.002, 0.004, 0.007, 0.010, 0.012};

std::vector<double> quadratic() {
  std::vector<double> head;
  for (const double q : flow)
    head.push_back(40 - 1e5 * q * q);
  return head;
}

TEST(FlowCurve, APolynomialOfTheRightDegreeComesBack) {
  for (const int degree : {2, 3, 4}) {
    const auto curve = FlowCurve::through(flow, quadratic(), {CurveKind::polynomial, degree});
    for (const double q : {0.0, 0.001, 0.0055, 0.012}) {
      EXPECT_NEAR(curve.at(q), 40 - 1e5 * q * q, 1e-11);
      EXPECT_NEAR(curve.slope_at(q), -2e5 * q, 1e-7);
    }
  }
}

TEST(FlowCurve, PchipPassesThroughItsPointsAndStaysBetweenThem) {
  const std::vector<double> step{10, 10, 10, 2, 1, 1};
  const auto curve = FlowCurve::through(flow, step, {CurveKind::pchip, 0});
  for (std::size_t i = 0; i < flow.size(); ++i)
    EXPECT_NEAR(curve.at(flow[i]), step[i], 1e-12);
  double before = curve.at(0);
  for (int i = 1; i <= 240; ++i) {
    const double here = curve.at(0.012 * i / 240);
    EXPECT_LE(here, before + 1e-12) << i;
    before = here;
  }
}

TEST(FlowCurve, KnowsHowFarItReaches) {
  const auto curve = FlowCurve::through(flow, quadratic(), {});
  EXPECT_TRUE(curve.reaches(0.012));
  EXPECT_FALSE(curve.reaches(0.0121));
}

TEST(FlowCurve, TooFewPointsAndRepeatedFlowsAreRefused) {
  const std::vector<double> two{0.001, 0.002}, same{0.001, 0.001, 0.001}, one_twice{0.001, 0.002, 0.002};
  const std::vector<double> y2{1, 2}, y3{1, 2, 3};
  const auto through = [](const auto& x, const auto& y, CurveChoice choice) {
    return testing::refused_field([&] { (void)FlowCurve::through(x, y, choice); });
  };
  EXPECT_EQ(through(two, y2, {CurveKind::polynomial, 2}), "points");
  EXPECT_EQ(through(same, y3, {CurveKind::polynomial, 1}), "points");
  EXPECT_EQ(through(one_twice, y3, {CurveKind::polynomial, 2}), "points");
  EXPECT_EQ(through(one_twice, y3, {CurveKind::pchip, 0}), "points");
  EXPECT_EQ(through(one_twice, y3, {CurveKind::polynomial, 5}), "degree");
  EXPECT_EQ(through(two, std::vector<double>{1, std::numeric_limits<double>::quiet_NaN()},
                    {CurveKind::polynomial, 1}),
            "points");
}

TEST(CurveSearch, FindsTheLargestFlowOnALine) {
  const auto curve = FlowCurve::through(flow, quadratic(), {});
  EXPECT_NEAR(*flow_on_line(curve, 30, 0), 0.01, 1e-15);
  // 40 - 1e5 q² = 3000 q: q = (-3000 + sqrt(9e6 + 1.6e7))/2e5 = 0.01
  EXPECT_NEAR(*flow_on_line(curve, 0, 3000), 0.01, 1e-15);
  EXPECT_FALSE(flow_on_line(curve, 41, 0));
  EXPECT_NEAR(flow_on_line_near(curve, 30, 0, 0.0095), 0.01, 1e-12);
}

// η ~ Q (40 - 1e5 Q²)/(2000 + 2e5 Q) is largest where -4e10 Q³ - 6e8 Q² + 8e4 = 0: Q = 0.00880786….
TEST(CurveSearch, TheBestEfficiencyPointSolvesItsCubic) {
  std::vector<double> power;
  for (const double q : flow)
    power.push_back(2000 + 2e5 * q);
  const PumpCurves curves{FlowCurve::through(flow, quadratic(), {}),
                          FlowCurve::through(flow, power, {CurveKind::polynomial, 1}), 1000};
  const BestPoint best = best_efficiency_point(curves);
  const double q = best.flow_m3_s;
  EXPECT_NEAR(-4e10 * q * q * q - 6e8 * q * q + 8e4, 0, 1);  // the slope there is 2e7: 5e-8 m³/s
  EXPECT_FALSE(best.at_end);
  EXPECT_NEAR(best.efficiency, 9806.65 * q * (40 - 1e5 * q * q) / (2000 + 2e5 * q), 1e-12);
}

TEST(CurveSearch, SaysWhenTheBestPointLiesAtTheEndOfTheTests) {
  const std::vector<double> head(6, 30), power(6, 5000);
  const PumpCurves curves{FlowCurve::through(flow, head, {CurveKind::polynomial, 1}),
                          FlowCurve::through(flow, power, {CurveKind::polynomial, 1}), 1000};
  EXPECT_TRUE(best_efficiency_point(curves).at_end);
}

}  // namespace
}  // namespace pumpwright::hydraulics

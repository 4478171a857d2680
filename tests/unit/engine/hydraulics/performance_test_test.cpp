#include "engine/hydraulics/performance_test.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/given_pump.h"
#include "tests/support/refused.h"

namespace pumpwright::hydraulics {
namespace {

using testing::given_test;
using testing::measured_test;

Figure head_at(const PerformanceModel& model, double q, std::vector<Share>* shares = nullptr) {
  return model.propagate([&](const PumpCurves& c, std::span<double> out) { out[0] = c.head.at(q); }, 1,
                         shares)[0];
}

TEST(PerformanceModel, ExactReadingsGiveTheStatedCurves) {
  const PerformanceModel model(given_test());
  for (const double q : {0.0, 0.004, 0.0113}) {
    EXPECT_NEAR(model.curves().head.at(q), testing::given_head_m(q), 1e-9);
    EXPECT_NEAR(model.curves().power->at(q), testing::given_power_w(q), 1e-6);
  }
  EXPECT_TRUE(model.sources().empty() || model.head_scatter_m() < 1e-9);
  EXPECT_LT(head_at(model, 0.01).u, 1e-9);
}

// Half the speed: a quarter of the head at half the flow.
TEST(PerformanceModel, IsReducedToTheRatedSpeed) {
  auto test = given_test();
  test.rated_speed = radians_per_second(1450 * testing::rpm);
  const PerformanceModel model(test);
  EXPECT_NEAR(model.curves().head.at(0.005), testing::given_head_m(0.01) / 4, 1e-9);
  EXPECT_NEAR(model.curves().power->at(0.005), testing::given_power_w(0.01) / 8, 1e-6);
}

// A limit of 980.665 Pa is 0.1 m of head; rectangular: 0.1 m/√3. Two gauges: √2 times that. One gauge for
// both sides: its error stands in both readings and drops out.
TEST(PerformanceModel, OneGaugeOnBothSidesIsNotTwoGauges) {
  auto test = given_test();
  test.meters.suction = {"gauge", 0, 980.665, 0};
  test.meters.discharge = {"gauge", 0, 980.665, 0};
  EXPECT_NEAR(head_at(PerformanceModel(test), 0.008).u, 0, 1e-9);
  test.meters.suction.id = "another gauge";
  EXPECT_NEAR(head_at(PerformanceModel(test), 0.008).u, std::sqrt(2.0) * 0.1 / std::sqrt(3.0), 1e-9);
}

// A flow meter's error shifts the whole curve along the flow: u(H) = |dH/dQ| Q 1 %/√3 (velocity heads aside:
// both bores are made one).
TEST(PerformanceModel, AFlowMetersErrorActsThroughTheSlope) {
  auto test = given_test();
  test.rig.discharge_bore = test.rig.suction_bore;
  for (auto& p : test.points)
    p.discharge.value -= pascals(p.discharge.value.value() * 0);
  test.meters.flow = {"flow-meter", 0.01, 0, 0};
  const double q = 0.009;
  const PerformanceModel model(test);
  const double expected = std::abs(model.curves().head.slope_at(q)) * q * 0.01 / std::sqrt(3.0);
  EXPECT_NEAR(head_at(model, q).u, expected, 1e-4 * expected);
}

TEST(PerformanceModel, AnInstrumentsErrorDoesNotAverageOutButReadingItOffDoes) {
  auto fixed = given_test(), read = given_test();
  fixed.meters.discharge = {"discharge", 0, 980.665, 0};
  read.meters.discharge = {"discharge", 0, 0, 980.665};
  EXPECT_NEAR(head_at(PerformanceModel(fixed), 0.006).u, 0.1 / std::sqrt(3.0), 1e-9);
  const double u_read = head_at(PerformanceModel(read), 0.006).u;
  EXPECT_GT(u_read, 0.2 * 0.1 / std::sqrt(3.0));
  EXPECT_LT(u_read, 0.6 * 0.1 / std::sqrt(3.0));
}

TEST(PerformanceModel, SharesNameWhatDominates) {
  std::vector<Share> shares;
  head_at(PerformanceModel(measured_test()), 0.011, &shares);
  ASSERT_FALSE(shares.empty());
  double sum = 0;
  for (const auto& s : shares)
    sum += s.fraction;
  EXPECT_NEAR(sum, 1, 1e-12);
  EXPECT_GE(shares.front().fraction, shares.back().fraction);
}

TEST(PerformanceModel, ScatterBeyondTheReadingsWidensTheCurve) {
  auto test = given_test();
  for (std::size_t i = 0; i < test.points.size(); ++i)
    test.points[i].discharge.value += pascals(i % 2 == 0 ? 5000 : -5000);
  const PerformanceModel model(test);
  EXPECT_GT(model.head_scatter_m(), 0.4);
  EXPECT_EQ(model.head_dof(), 6U);
  const Figure head = head_at(model, 0.006);
  EXPECT_GT(head.u, 0.1);
  EXPECT_NEAR(head.dof, 6, 1e-6);
}

// Relative standard uncertainties add as squares: 1 % of flow, 0.1 m of 30 m, 1.5 % of power.
TEST(PerformanceModel, APointsEfficiencyHasTheSumOfSquares) {
  auto test = given_test();
  test.rig.discharge_bore = test.rig.suction_bore;
  test.meters.flow = {"flow-meter", 0.01, 0, 0};
  test.meters.discharge = {"discharge", 0, 980.665, 0};
  test.meters.power = {"wattmeter", 0.015, 0, 0};
  const PerformanceModel model(test);
  const auto f = model.point_figures(6);
  ASSERT_EQ(f.size(), 4U);
  EXPECT_NEAR(f[0].u, 0.1 / std::sqrt(3.0), 1e-9);
  const double relative =
      std::sqrt((std::pow(0.01, 2) + std::pow(0.1 / f[0].value, 2) + std::pow(0.015, 2)) / 3);
  EXPECT_NEAR(f[3].u / f[3].value, relative, 2e-4 * relative);
}

TEST(PerformanceModel, PointsOfWhichSomeLackPowerAreRefused) {
  auto test = given_test();
  test.points[3].shaft_power.reset();
  EXPECT_EQ(testing::refused_field([&] { PerformanceModel m(test); }), "points");
  test = given_test();
  test.points.resize(2);
  EXPECT_EQ(testing::refused_field([&] { PerformanceModel m(test); }), "points");
  test = given_test();
  test.points[2].flow = cubic_metres_per_second(-1);
  const auto what = testing::refused([&] { PerformanceModel m(test); });
  EXPECT_EQ(what.field, "flow");
  EXPECT_EQ(what.place, "/points/2");
}

}  // namespace
}  // namespace pumpwright::hydraulics

#include <cmath>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/hydraulics/performance_test.h"
#include "engine/hydraulics/specific_speed.h"
#include "tests/support/given_pump.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using hydraulics::PerformanceModel;

constexpr double gpm = 3.785411784e-3 / 60;
constexpr double ft = 0.3048;
constexpr double hp = 745.69987158227022;

// Points of the rig at gauge pressures in bar; both pipes 150 mm, gauges level.
TEST(PerformanceReference, AStudentRigsRowsComeOut) {
  struct Row {
    double l_min, ps_bar, pd_bar, torque_nm, input_kw;
  };
  GivenLiquid water;
  water.density_kg_m3 = 997;
  hydraulics::TestRig rig = given_rig();
  rig.suction_height = rig.discharge_height = metres(0);
  rig.suction_bore = rig.discharge_bore = metres(0.15);
  for (const Row& row : {Row{254, -0.08, 0.06, 2.1, 0.52}, Row{177, -0.05, 0.25, 1.8, 0.47},
                         Row{50, -0.02, 0.35, 1.1, 0.36}}) {
    hydraulics::TestPoint p;
    p.flow = cubic_metres_per_second(row.l_min / 60000);
    p.suction = {pascals(row.ps_bar * 1e5)};
    p.discharge = {pascals(row.pd_bar * 1e5)};
    p.speed = radians_per_second(1100 * rpm);
    p.temperature = kelvin(293.15);
    p.torque = newton_metres(row.torque_nm);
    const auto words = live_words(fmt::format("rig_row {} {} {} {} {} 1100 997", row.l_min, row.ps_bar,
                                              row.pd_bar, row.torque_nm, row.input_kw));
    const auto r = hydraulics::result_of(p, rig, water);
    const std::string name = fmt::format("rig of a public course repository at {} L/min: ", row.l_min);
    const std::string source = live_versions() + ", H = dp/(rho g), P = T omega over the published readings";
    expect_outside({name + "head", source, Obtained::live, words.at(0), r.head.value(), "m", 9});
    expect_outside(
        {name + "hydraulic power", source, Obtained::live, words.at(1), r.hydraulic.value(), "W", 9});
    expect_outside({name + "shaft power", source, Obtained::live, words.at(2), r.shaft->value(), "W", 9});
    expect_outside({name + "efficiency", source, Obtained::live, words.at(3), *r.efficiency, "", 9});
  }
}

TEST(PerformanceReference, AffinityExamplesComeOut) {
  hydraulics::PointResult p;
  p.flow = cubic_metres_per_second(1000 * gpm);
  p.head = metres(100 * ft);
  p.shaft = watts(10 * hp);
  const auto faster = hydraulics::at_speed(p, radians_per_second(800 * rpm), radians_per_second(880 * rpm));
  const std::string source = "trade page on the use of the affinity laws (centrifugal-pump.org)";
  expect_outside({"800 to 880 r/min: flow of 1000 gpm", source, Obtained::read, "1100",
                  faster.flow.value() / gpm, "gpm", 4});
  expect_outside(
      {"10 % of speed: head", source, Obtained::read, "21", 100 * (faster.head / p.head - 1.0), "%", 2});
  expect_outside({"10 % of speed: power", "a practical guide to pumps, fans and affinity laws (2025)",
                  Obtained::read, "33", 100 * (*faster.shaft / *p.shaft - 1.0), "%", 2});
}

// A textbook problem gives Ns 2000 (r/min, gpm, ft), 300 gpm at 1170 r/min; the head follows from Ns.
TEST(PerformanceReference, SpecificSpeedsComeOut) {
  const double head_ft = std::pow(1170 * std::sqrt(300.0) / 2000, 4.0 / 3);
  const auto s = hydraulics::specific_speed(radians_per_second(1170 * rpm),
                                            cubic_metres_per_second(300 * gpm), metres(head_ft * ft));
  expect_outside(
      {"specific speed, US", "textbook problem of a pump of Ns 2000", Obtained::read, "2000", s.us, "", 4});
  const auto fast = hydraulics::specific_speed(radians_per_second(1750 * rpm),
                                               cubic_metres_per_second(300 * 1750 / 1170.0 * gpm),
                                               metres(head_ft * std::pow(1750 / 1170.0, 2) * ft));
  expect_outside({"the same at 1750 r/min", "affinity laws", Obtained::closed_form, "2000", fast.us, "", 4});
  expect_outside({"US over metric specific speed",
                  "ft^0.75 / gpm^0.5 from the definitions of foot and gallon", Obtained::closed_form,
                  "51.6452", s.us / s.metric, "", 5});
  expect_outside({"type number over metric specific speed", "(2 pi/60) / g^0.75", Obtained::closed_form,
                  "0.0188969", s.type / s.metric, "", 5});
}

// 500 gpm, 120 ft, 72 %: WHP = Q H / 3960; inputs read, the quotient worked out.
TEST(PerformanceReference, WaterHorsepowerComesOut) {
  GivenLiquid water;
  water.density_kg_m3 = 998.2;  // 3960 stands for water of 62.3 lb/ft³
  hydraulics::TestPoint p = given_point(500 * gpm, 120 * ft, 1);
  hydraulics::TestRig rig = given_rig();
  rig.discharge_bore = rig.suction_bore = metres(0.15);
  p.discharge.value = p.suction.value + pascals((120 * ft - 0.7) * 998.2 * 9.80665);
  expect_outside({"water horsepower of 500 gpm at 120 ft", "WHP = Q H / 3960, course page on pumps and power",
                  Obtained::read, "15.15", hydraulics::result_of(p, rig, water).hydraulic.value() / hp, "hp",
                  3});
}

// The standard's own table of uncertainties: 2.0 % flow, 1.5 % head, 1.5 % power give 2.9 % of efficiency.
TEST(PerformanceReference, UncertaintyOfEfficiencyAddsUpAsInTheStandard) {
  auto test = given_test();
  test.rig.discharge_bore = test.rig.suction_bore;
  const double root3 = std::sqrt(3.0);  // the table's figures are taken as standard deviations here
  test.meters.flow = {"flow", 0.020 * root3, 0, 0};
  test.meters.power = {"power", 0.015 * root3, 0, 0};
  const PerformanceModel before(test);
  const double head_m = before.point_figures(5)[0].value;
  test.meters.discharge = {"gauge", 0, 0.015 * root3 * head_m * given_weight_n_m3, 0};
  const auto figures = PerformanceModel(test).point_figures(5);
  expect_outside({"uncertainty of efficiency from 2.0, 1.5 and 1.5 %", "ISO 9906:2012, grade 1, torque route",
                  Obtained::remembered, "2.9", 100 * figures[3].u / figures[3].value, "%", 2});
}

TEST(PerformanceReference, ReadingUncertaintyGoesThroughTheFitAsInNumPy) {
  auto test = given_test();
  const double sd_m = 0.05;
  test.meters.discharge = {"gauge", 0, 0, sd_m * std::sqrt(3.0) * given_weight_n_m3};
  const PerformanceModel model(test);
  std::string flows;
  for (const auto& p : test.points)
    flows += fmt::format(" {}", p.flow.value());
  for (const double q : {0.0, 0.005, 0.012}) {
    const auto words = live_words(fmt::format("curve_sd 2 {} {} 9{}", q, sd_m, flows));
    const auto figure = model.propagate(
        [&](const hydraulics::PumpCurves& c, std::span<double> out) { out[0] = c.head.at(q); }, 1)[0];
    expect_outside({fmt::format("uncertainty of the fitted head at {} m3/s", q),
                    live_versions() + ", covariance of the quadratic", Obtained::live, words.at(0), figure.u,
                    "m", 8});
  }
}

}  // namespace
}  // namespace pumpwright::testing

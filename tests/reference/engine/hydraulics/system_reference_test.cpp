#include <cmath>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/hydraulics/operating_point.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace hydraulics;

TEST(SystemReference, ColebrooksFactorIsThatOfBrentsMethod) {
  for (const double re : {4000.0, 1e5, 1e8})
    for (const double roughness : {0.0, 1e-4, 0.05}) {
      const auto words = live_words(fmt::format("friction {} {}", re, roughness));
      expect_outside({fmt::format("friction factor at Re {:g}, roughness {:g}", re, roughness),
                      live_versions() + ", brentq on Colebrook's equation", Obtained::live, words.at(0),
                      friction_factor(re, roughness), "", 12});
    }
}

TEST(SystemReference, TheMoodyChartsValuesComeOut) {
  const std::string source = "Moody chart (L. F. Moody, Trans. ASME 66, 1944), as read by textbooks";
  expect_outside({"Re 1e5, smooth", source, Obtained::remembered, "0.0180", friction_factor(1e5, 0), "", 2});
  expect_outside(
      {"Re 1e5, 0.0002", source, Obtained::remembered, "0.0190", friction_factor(1e5, 2e-4), "", 2});
  expect_outside(
      {"fully rough, 0.01", source, Obtained::remembered, "0.0379", friction_factor(1e8, 0.01), "", 3});
  expect_outside(
      {"fully rough, 0.001", source, Obtained::remembered, "0.0196", friction_factor(1e8, 0.001), "", 3});
}

FlowCurve parabola(double h0, double a, double to) {
  std::vector<double> q, h;
  for (int i = 0; i <= 20; ++i) {
    q.push_back(to * i / 20);
    h.push_back(h0 - a * q.back() * q.back());
  }
  return FlowCurve::through(q, h, {CurveKind::polynomial, 2});
}

// A textbook pump, 365 - 20 Q² [ft, ft³/s], between reservoirs 290 ft apart: 90 ft of 10 in pipe of f 0.022
// and 4900 ft of 8 in pipe of f 0.028. The loss is k Q² with k from the stated factors.
TEST(SystemReference, ATextbookPumpAloneInSeriesAndInParallel) {
  const auto k_of = [](double f, double length_ft, double bore_in) {
    const double d = bore_in / 12, area = pi / 4 * d * d;
    return f * length_ft / d / (2 * 32.174 * area * area);
  };
  const double k = k_of(0.022, 90, 10) + k_of(0.028, 4900, 8);
  for (const auto& [parallel, series] : {std::pair{1, 1}, std::pair{1, 2}, std::pair{2, 1}}) {
    const auto words = live_words(fmt::format("pumps 365 20 290 {} {} {}", k, parallel, series));
    Plant plant;
    const auto p = parabola(290, -k, 8);
    plant.measured = p;
    const auto point = operating_point({parabola(365, 20, 4.2), parallel, series, 1}, plant);
    const std::string name = fmt::format("textbook pump, {} in parallel, {} in series: ", parallel, series);
    const std::string source =
        live_versions() + ", brentq; inputs read in a textbook problem, its answer not seen";
    expect_outside({name + "flow", source, Obtained::live, words.at(0), point.flow_m3_s, "ft3/s", 9});
    expect_outside({name + "head", source, Obtained::live, words.at(1), point.head_m, "ft", 9});
  }
}

// Another: 35 ft + 0.002 Q² [gpm] against a tabulated curve. At the point of operation 75 ft and 200 gpm are
// stated, which do not meet: the plant's 75 ft is at 141 gpm. What can be checked is the plant's own table.
TEST(SystemReference, ATabulatedPlantComesOut) {
  const auto plant = parabola(35, -0.002, 680);
  const std::string source = "licensing-review problem on pumps in series and parallel, its table";
  expect_outside({"plant at 110 gpm", source, Obtained::read, "59.2", plant.at(110), "ft", 3});
  expect_outside({"plant at 340 gpm", source, Obtained::read, "266.2", plant.at(340), "ft", 4});
  expect_outside({"plant at 600 gpm", source, Obtained::read, "755", plant.at(600), "ft", 3});
}

}  // namespace
}  // namespace pumpwright::testing

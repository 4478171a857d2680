#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/hydraulics/flow_curve.h"
#include "engine/hydraulics/trim.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using namespace hydraulics;

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

std::vector<double> rising_flows(std::size_t count) {
  std::vector<double> flow{between(0, 0.01)};
  while (flow.size() < count)
    flow.push_back(flow.back() + between(0.001, 0.02));
  return flow;
}

TEST(CurveProperty, APolynomialThroughPointsOfOneIsThatOne) {
  hold("polynomial", [] {
    const int degree = *rc::gen::inRange(1, 5);
    const auto flow =
        rising_flows(static_cast<std::size_t>(degree) + static_cast<std::size_t>(*rc::gen::inRange(1, 12)));
    std::vector<double> c;
    for (int i = 0; i <= degree; ++i)
      c.push_back(between(-10, 10));
    const auto value = [&](double q) {
      double v = 0;
      for (int i = degree; i >= 0; --i)
        v = v * q / flow.back() + c[static_cast<std::size_t>(i)];
      return v;
    };
    std::vector<double> head;
    for (const double q : flow)
      head.push_back(value(q));
    const auto curve = FlowCurve::through(flow, head, {CurveKind::polynomial, degree});
    const double q = between(flow.front(), flow.back());
    RC_ASSERT(std::fabs(curve.at(q) - value(q)) < 1e-8);
  });
}

TEST(CurveProperty, TheInterpolantNeverLeavesItsNeighbours) {
  hold("pchip", [] {
    const auto flow = rising_flows(static_cast<std::size_t>(*rc::gen::inRange(2, 14)));
    std::vector<double> head;
    for (std::size_t i = 0; i < flow.size(); ++i)
      head.push_back(between(0, 50));
    const auto curve = FlowCurve::through(flow, head, {CurveKind::pchip, 0});
    const auto piece = static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(flow.size()) - 1));
    const double here = curve.at(between(flow[piece], flow[piece + 1]));
    const auto [low, high] = std::minmax(head[piece], head[piece + 1]);
    RC_ASSERT(here >= low - 1e-9 && here <= high + 1e-9);
  });
}

TEST(TrimProperty, TwoCutsInARowAreTheWholeCut) {
  hold("cuts", [] {
    const CutRule rule = *rc::gen::element(CutRule::affinity, CutRule::reduced_diameter);
    const double inlet = between(0.05, 0.1), full = inlet + between(0.05, 0.2);
    const double middle = between(inlet + 0.03, full), last = between(inlet + 0.02, middle);
    const auto factor = [&](double from, double to) {
      return flow_factor(rule, {metres(from), metres(inlet), {}}, metres(to));
    };
    RC_ASSERT(std::fabs(factor(full, middle) * factor(middle, last) - factor(full, last)) < 1e-12);
  });
}

}  // namespace
}  // namespace pumpwright::testing

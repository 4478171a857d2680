#include "engine/hydraulics/curve_search.h"

#include <cassert>
#include <cmath>

namespace pumpwright::hydraulics {
namespace {

constexpr int scan_steps = 400;
constexpr double golden = 0.6180339887498949;

template <class F>
double bisected(F f, double a, double b) {
  double fa = f(a);
  for (int i = 0; i < 200 && b > a; ++i) {
    const double m = (a + b) / 2;
    if (m <= a || m >= b) break;
    const double fm = f(m);
    if ((fm < 0) == (fa < 0)) {
      a = m;
      fa = fm;
    } else {
      b = m;
    }
  }
  return (a + b) / 2;
}

}  // namespace

std::optional<double> flow_on_line(const FlowCurve& head, double offset_m, double slope) {
  const auto gap = [&](double q) { return head.at(q) - offset_m - slope * q; };
  const double low = head.lowest_m3_s(), high = head.highest_m3_s();
  const auto place = [&](int i) { return low + (high - low) * i / scan_steps; };
  if (gap(high) == 0) return high;
  for (int i = scan_steps; i > 0; --i) {
    const double a = place(i - 1), b = place(i);
    if (gap(a) == 0) return a;
    if ((gap(a) < 0) != (gap(b) < 0)) return bisected(gap, a, b);
  }
  return std::nullopt;
}

double flow_on_line_near(const FlowCurve& head, double offset_m, double slope, double near_m3_s) {
  double q = near_m3_s;
  for (int i = 0; i < 4; ++i)
    q -= (head.at(q) - offset_m - slope * q) / (head.slope_at(q) - slope);
  return q;
}

BestPoint best_efficiency_point(const PumpCurves& curves) {
  assert(curves.power);
  const double low = std::max(curves.head.lowest_m3_s(), curves.power->lowest_m3_s());
  const double high = std::min(curves.head.highest_m3_s(), curves.power->highest_m3_s());
  const auto place = [&](int i) { return low + (high - low) * i / scan_steps; };
  int best = 0;
  for (int i = 1; i <= scan_steps; ++i)
    if (curves.efficiency_at(place(i)) > curves.efficiency_at(place(best))) best = i;
  double a = place(std::max(0, best - 1)), b = place(std::min(scan_steps, best + 1));
  for (int i = 0; i < 60; ++i) {
    const double c = b - golden * (b - a), d = a + golden * (b - a);
    if (curves.efficiency_at(c) > curves.efficiency_at(d))
      b = d;
    else
      a = c;
  }
  BestPoint p;
  p.flow_m3_s = (a + b) / 2;
  p.head_m = curves.head.at(p.flow_m3_s);
  p.efficiency = curves.efficiency_at(p.flow_m3_s);
  p.at_end = best == 0 || best == scan_steps;
  return p;
}

}  // namespace pumpwright::hydraulics

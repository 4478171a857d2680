#include "engine/hydraulics/operating_point.h"

#include <algorithm>
#include <cmath>

#include "engine/assembly/input_check.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double speed_min = 0.2, speed_max = 1.3;
constexpr int scan_steps = 400;

void require_valid(const PumpGroup& g) {
  require_between(g.parallel, 1, 20, "parallel", "1 to 20 pumps");
  require_between(g.series, 1, 20, "series", "1 to 20 pumps");
  require_between(g.speed, speed_min, speed_max, "speed", "20 % to 130 % of the curve's speed");
}

template <class F>
double bisected(F f, double a, double b) {
  const bool negative = f(a) < 0;
  for (int i = 0; i < 100; ++i) {
    const double m = (a + b) / 2;
    ((f(m) < 0) == negative ? a : b) = m;
  }
  return (a + b) / 2;
}

}  // namespace

double plant_head_m(const Plant& plant, double flow_m3_s) {
  if (plant.measured) {
    require_that(plant.measured->reaches(flow_m3_s), flow_m3_s, "flow",
                 "a flow within the plant's measured points");
    return plant.measured->at(flow_m3_s);
  }
  double head_m = plant.static_head.value();
  for (const Pipe& pipe : plant.pipes)
    head_m += pipe_loss(pipe, cubic_metres_per_second(flow_m3_s), plant.viscosity).head.value();
  return head_m;
}

double PumpGroup::lowest_m3_s() const {
  return head.lowest_m3_s() * parallel * speed;
}

double PumpGroup::highest_m3_s() const {
  return head.highest_m3_s() * parallel * speed;
}

double PumpGroup::one_flow_m3_s(double flow_m3_s) const {
  return flow_m3_s / (parallel * speed);
}

double PumpGroup::head_m(double flow_m3_s) const {
  return series * speed * speed * head.at(one_flow_m3_s(flow_m3_s));
}

OperatingPoint operating_point(const PumpGroup& group, const Plant& plant) {
  require_valid(group);
  double low = group.lowest_m3_s(), high = group.highest_m3_s();
  if (plant.measured) {
    low = std::max(low, plant.measured->lowest_m3_s());
    high = std::min(high, plant.measured->highest_m3_s());
    require_that(low < high, high, "flow", "plant and pump measured at flows they have in common");
  }
  const auto surplus = [&](double q) { return group.head_m(q) - plant_head_m(plant, q); };
  const auto place = [&](int i) { return low + (high - low) * i / scan_steps; };
  OperatingPoint p;
  if (surplus(high) > 0) {
    p.meeting = Meeting::beyond_runout;
    p.flow_m3_s = high;
  } else {
    int i = scan_steps;
    while (i > 0 && surplus(place(i - 1)) < 0)
      --i;
    p.meeting = i > 0 ? Meeting::found : Meeting::plant_too_high;
    p.flow_m3_s = i > 0 ? bisected(surplus, place(i - 1), place(i)) : low;
  }
  p.head_m = group.head_m(p.flow_m3_s);
  return p;
}

double throttled_head_m(const PumpGroup& group, const Plant& plant, double flow_m3_s) {
  require_valid(group);
  require_between(flow_m3_s, group.lowest_m3_s(), group.highest_m3_s(), "flow",
                  "a flow within the pumps' known ones");
  return group.head_m(flow_m3_s) - plant_head_m(plant, flow_m3_s);
}

std::optional<double> speed_for_flow(const PumpGroup& group, const Plant& plant, double flow_m3_s) {
  const double wanted_m = plant_head_m(plant, flow_m3_s);
  const auto at = [&](double k) {
    PumpGroup g = group;
    g.speed = k;
    return g;
  };
  const auto known = [&](double k) { return group.head.reaches(at(k).one_flow_m3_s(flow_m3_s)); };
  const auto surplus = [&](double k) { return at(k).head_m(flow_m3_s) - wanted_m; };
  constexpr double step = (speed_max - speed_min) / scan_steps;
  for (int i = 0; i < scan_steps; ++i) {
    const double a = speed_min + step * i, b = a + step;
    if (known(a) && known(b) && (surplus(a) < 0) != (surplus(b) < 0)) return bisected(surplus, a, b);
  }
  return std::nullopt;
}

const char* word_for(Meeting meeting) {
  switch (meeting) {
    case Meeting::found:
      return "found";
    case Meeting::plant_too_high:
      return "plant-too-high";
    case Meeting::beyond_runout:
      return "beyond-run-out";
  }
  return "";
}

}  // namespace pumpwright::hydraulics

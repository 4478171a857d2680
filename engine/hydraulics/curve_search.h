// Places on a pump's curves: where head meets a line or a value, and where efficiency is best.
#pragma once

#include <optional>

#include "engine/hydraulics/performance_test.h"

namespace pumpwright::hydraulics {

// Largest flow within the tested range [m³/s] at which head equals `offset_m + slope_m_per_m3_s` Q; nothing
// when the curve does not meet the line there. A line of slope 0 is a constant head; one of offset 0 goes
// through the origin.
std::optional<double> flow_on_line(const FlowCurve& head, double offset_m, double slope_m_per_m3_s);

// The same for a curve a little displaced: Newton from a place found before.
double flow_on_line_near(const FlowCurve& head, double offset_m, double slope_m_per_m3_s, double near_m3_s);

struct BestPoint {
  double flow_m3_s = 0, head_m = 0, efficiency = 0;
  bool at_end = false;  // of the tested range: the true best point lies at or beyond it
};

// Needs power (asserted).
BestPoint best_efficiency_point(const PumpCurves& curves);

}  // namespace pumpwright::hydraulics

// Where pump and plant meet: one pump, several in parallel or in series, throttled or at another speed.
#pragma once

#include <optional>
#include <vector>

#include "engine/hydraulics/flow_curve.h"
#include "engine/hydraulics/pipe_friction.h"

namespace pumpwright::hydraulics {

// What the plant asks for: a static head and pipes one after the other, or measured points.
struct Plant {
  Length static_head;       // level and pressure to overcome
  std::vector<Pipe> pipes;  // in line; all carry the whole flow
  KinematicViscosity viscosity;
  std::optional<FlowCurve> measured;  // in place of the above [m]
};

// [m]. BadInput "flow" outside the measured points.
double plant_head_m(const Plant& plant, double flow_m3_s);

// Equal pumps: `parallel` strings of `series` pumps each, all at `speed` times the speed of the curve.
struct PumpGroup {
  FlowCurve head;                // of one pump
  int parallel = 1, series = 1;  // 1 to 20
  double speed = 1;              // 0.2 to 1.3

  double lowest_m3_s() const;  // of the group: where its curve is known
  double highest_m3_s() const;
  double head_m(double flow_m3_s) const;         // of the group
  double one_flow_m3_s(double flow_m3_s) const;  // of one pump, on its own curve (at the curve's speed)
};

enum class Meeting {
  found,
  plant_too_high,  // the plant asks for more head than the pumps give at every known flow
  beyond_runout,   // the pumps still give more than the plant asks at the largest known flow
};

struct OperatingPoint {
  Meeting meeting = Meeting::found;
  double flow_m3_s = 0, head_m = 0;  // of the group; the last known flow when not found
};

// The crossing of largest flow within the known flows of both. BadInput for a group outside its ranges.
OperatingPoint operating_point(const PumpGroup& group, const Plant& plant);

// Head a valve must take at a flow for the plant to run there; negative when the pumps can not reach it.
double throttled_head_m(const PumpGroup& group, const Plant& plant, double flow_m3_s);

// Speed factor at which the group runs the plant at a flow; nothing when none from 0.2 to 1.3 does within the
// known flows.
std::optional<double> speed_for_flow(const PumpGroup& group, const Plant& plant, double flow_m3_s);

// "found", "plant-too-high", "beyond-run-out".
const char* word_for(Meeting meeting);

}  // namespace pumpwright::hydraulics

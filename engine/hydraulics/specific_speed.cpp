#include "engine/hydraulics/specific_speed.h"

#include <cmath>

#include "engine/assembly/input_check.h"
#include "engine/hydraulics/test_point.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double m3_s_of_gpm = 3.785411784e-3 / 60;
constexpr double m_of_ft = 0.3048;

}  // namespace

SpecificSpeed specific_speed(Speed speed, VolumeFlow flow, Length head, int stages) {
  require_that(speed.value() > 0, speed.value(), "speed", "a speed over 0");
  require_that(flow.value() > 0, flow.value(), "flow", "a flow over 0");
  require_that(head.value() > 0, head.value(), "head", "a head over 0");
  require_between(stages, 1, 1000, "stages", "1 to 1000 stages");
  const double stage_m = head.value() / stages;
  const double rpm = speed.value() * 30 / pi;
  const double root = std::sqrt(flow.value());
  SpecificSpeed s;
  s.metric = rpm * root / std::pow(stage_m, 0.75);
  s.us = rpm * std::sqrt(flow.value() / m3_s_of_gpm) / std::pow(stage_m / m_of_ft, 0.75);
  s.type = speed.value() * root / std::pow(standard_gravity_m_s2 * stage_m, 0.75);
  return s;
}

}  // namespace pumpwright::hydraulics

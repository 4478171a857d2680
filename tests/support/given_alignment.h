// Indicator readings of a shaft that lies where the test puts it.
#pragma once

#include <cmath>
#include <vector>

#include "engine/assembly/shaft_alignment.h"

namespace pumpwright::testing {

struct GivenLine {
  double up_m = 0, right_m = 0, up_slope = 0, right_slope = 0;  // about x = 0
};

// What a dial reads at those clock positions [rad], zeroed at the first.
inline std::vector<SweepReading> given_readings(const alignment::Dial& dial, const GivenLine& line,
                                                const std::vector<double>& places_rad) {
  const double x_m = dial.at.value();
  const bool face = dial.on == alignment::DialOn::face;
  const double up = face ? dial.radius.value() * line.up_slope : line.up_m + x_m * line.up_slope;
  const double right = face ? dial.radius.value() * line.right_slope : line.right_m + x_m * line.right_slope;
  double sign = dial.plunger_in == PlungerIn::plus ? 1 : -1;
  if (face && dial.far_side) sign = -sign;
  if (!face && dial.base == alignment::BaseOn::moved_shaft) sign = -sign;
  const auto shown = [&](double at_rad) {
    const double sag = dial.sag ? dial.sag->at_bottom.value() * (1 - std::cos(at_rad)) / 2 : 0;
    return sign * (up * std::cos(at_rad) + right * std::sin(at_rad)) + sag;
  };
  std::vector<SweepReading> readings;
  for (const double at_rad : places_rad)
    readings.push_back({radians(at_rad), metres(shown(at_rad) - shown(places_rad.front()))});
  return readings;
}

inline std::vector<double> quarters() {
  return {0, pi / 2, pi, 3 * pi / 2};
}

}  // namespace pumpwright::testing

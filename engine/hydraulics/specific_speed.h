// Specific speed and type number: the shape of an impeller in one number, in the systems it is quoted in.
//
// A number without its system is worthless: the US figure is 51.64 times the metric one of the same pump.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

struct SpecificSpeed {
  double us = 0;      // N √Q / H^0.75 with r/min, US gpm, ft
  double metric = 0;  // n √Q / H^0.75 with r/min, m³/s, m (often written nq)
  double type = 0;    // K = 2π n √Q / (g H)^0.75 with n in 1/s: a pure number (ISO 9906, remembered)
};

// At the best efficiency point and full diameter, `head` of all `stages`. With an NPSH in place of the head
// and the flow of one impeller eye it is the suction specific speed (read in a pumping handbook, p. 62).
// BadInput unless flow, head and speed are over 0 and stages 1 to 1000.
SpecificSpeed specific_speed(Speed speed, VolumeFlow flow, Length head, int stages = 1);

}  // namespace pumpwright::hydraulics

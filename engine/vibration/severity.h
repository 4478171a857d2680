// How much overall velocity a rotodynamic pump may show on its bearing housings.
//
// ISO 10816-7:2009, tables A.1 and A.2 (remembered, not compared with the publication): its verdicts decide
// nothing until somebody has compared the figures.
#pragma once

#include <string_view>

#include "engine/quantity/quantity.h"

namespace pumpwright::vibration {

// I: what a high level of reliability, availability or safety is asked of, such as hazardous liquids; II: the
// rest.
enum class PumpCategory { one, two };

enum class Zone {
  a,  // newly commissioned
  b,  // unrestricted long-term running
  c,  // not for long
  d,  // may do damage
};

struct ZoneLimits {
  Velocity a_to_b, b_to_c, c_to_d;
};

// Two classes of power, to 200 kW and over. BadInput "power" unless over 1 kW.
ZoneLimits zone_limits(PumpCategory category, Power power);

Zone zone_of(Velocity rms, const ZoneLimits& limits);

// "A" … "D".
std::string_view word_for(Zone zone);

}  // namespace pumpwright::vibration

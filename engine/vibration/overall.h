// The overall vibration velocity of a recorded signal within a band, as standards on pump vibration ask for
// it.
#pragma once

#include "engine/vibration/spectrum.h"

namespace pumpwright::vibration {

enum class Measures { acceleration, velocity };  // SI: m/s², m/s

struct Band {
  Frequency least, most;
};

// 10 Hz to 1 kHz; from 2 Hz for a shaft slower than 600 rpm (ISO 10816-7, remembered).
Band usual_band(Speed speed);

struct OverallVelocity {
  Velocity rms;
  Velocity u;  // standard uncertainty from the scatter of averaged powers
};

// Of an acceleration every line is divided by its 2πf. BadInput "band" unless 0 < least < most and the
// spectrum reaches up to `most`.
OverallVelocity overall_velocity(const Spectrum& spectrum, Measures measures, const Band& band);

// A tone's r.m.s. as a velocity.
Velocity velocity_of(double rms_si, Measures measures, Frequency at);

}  // namespace pumpwright::vibration

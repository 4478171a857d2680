// A recorded vibration signal: its spectrum, its overall velocity, and which of its tones stand out and may
// be what.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/executor.h"
#include "engine/vibration/overall.h"
#include "job/sheets/vibration_finding.h"

namespace pumpwright::job {

struct RecordedSignal {
  std::vector<double> samples;
  Frequency rate{};
};

// What one unit of a recording is: "m/s2", "g", "mm/s", "in/s".
struct SignalUnit {
  vibration::Measures measures = vibration::Measures::acceleration;
  double si = 1;
};
std::optional<SignalUnit> signal_unit(std::string_view word);

struct SignalAsked {
  std::string place;
  vibration::Measures measures = vibration::Measures::acceleration;
  vibration::SpectrumSettings settings;
};

struct FoundTone {
  vibration::Tone tone;
  Velocity rms;
  Velocity u;                                   // standard uncertainty
  std::vector<vibration::ExpectedLine> may_be;  // nearest first; empty: nothing that is expected
};

struct SignalFinding {
  vibration::Measures measures = vibration::Measures::acceleration;
  vibration::Spectrum spectrum;
  vibration::Band band;
  JudgedPlace overall;           // over that band
  std::vector<FoundTone> tones;  // by velocity, the strongest first; at most 12
};

// `recording` in SI. BadInput as the engine's.
SignalFinding signal_finding(const VibrationSheet& sheet, const SignalAsked& asked,
                             const RecordedSignal& recording, Executor& executor);

}  // namespace pumpwright::job

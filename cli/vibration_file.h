// The file of `pumpwright vibration`: the pump, what a meter read, and a recorded signal.
// docs/vibration.schema.json publishes the format.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/recorded_signal.h"
#include "engine/quantity/parse.h"
#include "engine/vibration/expected_lines.h"
#include "engine/vibration/overall.h"
#include "engine/vibration/severity.h"

namespace pumpwright {

struct OverallRead {
  std::string place;
  Written velocity;  // r.m.s.
};

// A recording still to be read.
struct SignalRead {
  std::string place;
  std::string path;  // as written, relative to the file
  bool wav = true;
  int channel = 1;
  CsvColumns columns;
  vibration::Measures measures = vibration::Measures::acceleration;
  double si_per_unit = 1;  // SI of one unit of the recording
  vibration::SpectrumSettings settings;
};

struct VibrationFile {
  std::string name;
  vibration::PumpFacts pump;
  Written speed;
  std::optional<vibration::PumpCategory> category;
  std::optional<Written> power;
  std::string confirmed_by;  // who compared the zones with the standard; empty: nobody
  double meter_error = 0.1;  // ± this part of what is read
  std::vector<OverallRead> overall;
  std::optional<SignalRead> signal;
};

// Throws BadInput whose place is a JSON pointer.
VibrationFile decode_vibration_file(std::string_view bytes);

}  // namespace pumpwright

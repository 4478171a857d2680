// The file of `pumpwright vibration`: the pump, what a meter read, and a recorded signal.
// docs/vibration.schema.json publishes the format.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "cli/signal_csv.h"
#include "job/sheets/vibration_sheet.h"

namespace pumpwright {

constexpr std::size_t recording_bytes_max = std::size_t{1024} * 1024 * 1024;

// A recording still to be read.
struct SignalRead {
  job::SignalAsked asked;
  std::string path;  // as written, relative to the file
  bool wav = true;
  int channel = 1;
  CsvColumns columns;
  double si_per_unit = 1;  // SI of one unit of the recording
};

// A sheet with a recording beside what the meters read.
struct VibrationFile : job::VibrationSheet {
  std::optional<SignalRead> signal;
};

// Throws BadInput whose place is a JSON pointer.
VibrationFile decode_vibration_file(std::string_view bytes);

}  // namespace pumpwright

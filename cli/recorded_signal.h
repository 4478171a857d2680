// A signal as a recorder wrote it: a WAV file, or a column of a CSV file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright {

struct RecordedSignal {
  std::vector<double> samples;  // as stored: of integer WAV samples, 1 is full scale
  Frequency rate{};
};

constexpr std::size_t recording_bytes_max = std::size_t{1024} * 1024 * 1024;

// RIFF/WAVE with integers of 16, 24 or 32 bits or floats of 32 bits (RFC 2361 codes 1 and 3, plain or
// extensible), `channel` from 1. Throws BadInput naming what is wrong with the file.
RecordedSignal read_wav(std::string_view bytes, int channel);

// Samples of one column. Rules of a CSV file: csv_lines.h; its first line names the columns. The rate is as
// stated, or found from the column `time` in seconds, which must be even to 1 %. Throws BadInput naming line
// and column.
struct CsvColumns {
  std::string samples;
  std::string time;  // empty: `rate` is stated
  Frequency rate{};
};
RecordedSignal read_signal_csv(std::string_view bytes, const CsvColumns& columns);

}  // namespace pumpwright

// A signal as a recorder wrote it into a column of a CSV file.
#pragma once

#include <string>
#include <string_view>

#include "job/sheets/vibration_signal.h"

namespace pumpwright {

// Samples of one column. Rules of a CSV file: csv_lines.h; its first line names the columns. The rate is as
// stated, or found from the column `time` in seconds, which must be even to 1 %. Throws BadInput naming line
// and column.
struct CsvColumns {
  std::string samples;
  std::string time;  // empty: `rate` is stated
  Frequency rate{};
};
job::RecordedSignal read_signal_csv(std::string_view bytes, const CsvColumns& columns);

}  // namespace pumpwright

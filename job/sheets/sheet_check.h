// What one figure of a sheet comes to before its limit is looked at, and the judge's way to all of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/measurement.h"
#include "job/sheets/sheet_result.h"

namespace pumpwright::job {

struct SheetMeasured {
  std::optional<Measurement> number;  // of a figure with a number
  std::optional<bool> kept;           // of a figure without: it is as it must be, or not
  std::optional<Reason> blocked;      // the sheet proves nothing, and why
  std::string as_written;             // "200 psig to 196 psig in 15 min"
  const Unit* unit = nullptr;         // to show the number in
  std::vector<Text> remarks;
};

// `reading`: null for a sheet that takes none. Throws BadInput whose place names the part of the job that is
// wrong.
MeasuredReading measure_sheet(const Check& check, const Reading* reading, const JudgeContext& in);

}  // namespace pumpwright::job

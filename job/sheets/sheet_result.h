// What was computed from a sheet, kept with its verdict so that page and record show it and compute nothing
// again.
#pragma once

#include <variant>
#include <vector>

#include "job/sheets/pressure_hold_finding.h"
#include "job/text.h"

namespace pumpwright::job {

struct PressureHoldResult {
  PressureHoldSheet sheet;
  PressureHoldFinding finding;
};

struct SheetResult {
  std::variant<PressureHoldResult> of;
};

// One figure as people read it: "leak", "0.02 mL/min ± 0.01 mL/min".
struct SheetLine {
  Text name;
  Text value;
};

std::vector<SheetLine> lines_of(const SheetResult& result);

}  // namespace pumpwright::job

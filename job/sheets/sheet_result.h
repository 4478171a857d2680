// What was computed from a sheet, kept with its verdict so that page and record show it and compute nothing
// again.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "engine/rotor/assessment.h"
#include "job/sheet_picture.h"
#include "job/sheets/alignment_finding.h"
#include "job/sheets/balance_finding.h"
#include "job/sheets/performance_finding.h"
#include "job/sheets/pressure_hold_finding.h"
#include "job/sheets/rotor_sheet.h"
#include "job/sheets/strip_down_sheet.h"
#include "job/sheets/system_finding.h"
#include "job/sheets/vibration_finding.h"
#include "job/text.h"

namespace pumpwright::job {

struct PressureHoldResult {
  PressureHoldSheet sheet;
  PressureHoldFinding finding;
};

struct BalanceResult {
  BalanceSheet sheet;
  BalanceFinding finding;
};

struct AlignmentResult {
  AlignmentSheet sheet;
  AlignmentFinding finding;
};

struct RotorResult {
  RotorSheet sheet;
  rotor::RotorAssessment finding;
};

struct PerformanceResult {
  PerformanceSheet sheet;
  PerformanceFinding finding;
};

struct VibrationResult {
  VibrationSheet sheet;
  VibrationFinding finding;
};

struct SystemResult {
  SystemSheet sheet;
  SystemFinding finding;
};

struct StripDownResult {
  StripDownSheet sheet;
};

struct SheetResult {
  std::variant<PressureHoldResult, BalanceResult, AlignmentResult, RotorResult, PerformanceResult,
               VibrationResult, SystemResult, StripDownResult>
      of;
};

// One figure as people read it: "leak", "0.02 mL/min ± 0.01 mL/min".
struct SheetLine {
  Text name;
  Text value;
};

std::vector<SheetLine> lines_of(const SheetResult& result);

// Nothing for a test that has none, or whose readings do not suffice for one.
std::optional<SheetPicture> picture_of(const SheetResult& result);

}  // namespace pumpwright::job

// What `pumpwright vibration` was asked, and what it found.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/vibration_file.h"
#include "engine/executor.h"
#include "job/sheets/vibration_finding.h"

namespace pumpwright {

struct VibrationQuestion {
  std::string file;
  VibrationFile sheet;
  std::optional<job::RecordedSignal> recording;  // of the sheet's signal, in SI
};

// What the meters read, and after it the overall velocity of the recording.
struct VibrationAnswer : job::VibrationFinding {
  vibration::Band band;
  std::vector<vibration::ExpectedLine> expected;
  std::optional<job::SignalFinding> signal;
  // "pass", "fail", "unproven"; empty without category and power. Reason: "inside-guarded",
  // "outside-guarded", "limit-in-uncertainty", "limit-unconfirmed".
  std::string verdict, reason;
};

// BadInput as the engine's, with places in the file.
VibrationAnswer answer(const VibrationQuestion& question, Executor& executor);

std::string vibration_text(const VibrationQuestion& question, const VibrationAnswer& finding, bool colour);
std::string vibration_json(const VibrationQuestion& question, const VibrationAnswer& finding);

}  // namespace pumpwright

// What `pumpwright pressure-hold` was asked, and how it is said.
#pragma once

#include <string>

#include "job/sheets/pressure_hold_finding.h"

namespace pumpwright {

struct PressureHoldQuestion {
  std::string file;
  job::PressureHoldSheet sheet;
};

std::string pressure_hold_text(const PressureHoldQuestion& question, const job::PressureHoldFinding& finding,
                               bool colour);
std::string pressure_hold_json(const PressureHoldQuestion& question, const job::PressureHoldFinding& finding);

}  // namespace pumpwright

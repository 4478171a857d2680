// Velocities in the words of a vibration sheet: in the system its first reading was written in.
#pragma once

#include <string>

#include "engine/quantity/format.h"
#include "job/sheets/vibration_sheet.h"

namespace pumpwright::job {

inline const Unit& velocity_unit(const VibrationSheet& sheet) {
  const bool inch = !sheet.overall.empty() && sheet.overall.front().velocity.unit->system == System::inch;
  return unit_with_symbol(inch ? "in/s" : "mm/s", Kind::velocity);
}

inline std::string velocity_text(const VibrationSheet& sheet, Velocity velocity, int digits = 3) {
  return format_significant(velocity, velocity_unit(sheet), digits);
}

}  // namespace pumpwright::job

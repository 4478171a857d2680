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

// "2.90 mm/s ± 0.17 mm/s": twice the standard uncertainty.
inline std::string velocity_text(const VibrationSheet& sheet, Velocity rms, Velocity u) {
  return velocity_text(sheet, rms) + " ± " + velocity_text(sheet, u * 2.0, 2);
}

}  // namespace pumpwright::job

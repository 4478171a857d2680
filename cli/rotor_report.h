// What `pumpwright rotor` prints: one sheet, as text or JSON.
#pragma once

#include <string>

#include "job/sheets/rotor_sheet.h"

namespace pumpwright {

std::string rotor_text(const std::string& path, const job::RotorSheet& file,
                       const rotor::RotorAssessment& finding, bool colour);
std::string rotor_json(const std::string& path, const job::RotorSheet& file,
                       const rotor::RotorAssessment& finding);

}  // namespace pumpwright

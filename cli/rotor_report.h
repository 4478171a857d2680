// What `pumpwright rotor` prints: one sheet, as text or JSON.
#pragma once

#include <string>

#include "cli/rotor_file.h"

namespace pumpwright {

std::string rotor_text(const std::string& path, const RotorFile& file, const rotor::RotorAssessment& finding,
                       bool colour);
std::string rotor_json(const std::string& path, const RotorFile& file, const rotor::RotorAssessment& finding);

}  // namespace pumpwright

// What `pumpwright returns` prints of its finding.
#pragma once

#include <string>

#include "job/returns_finding.h"

namespace pumpwright {

// `file`: what the list is called.
std::string returns_text(const std::string& file, const job::ReturnsQuestion& question,
                         const job::ReturnsFinding& finding, bool colour);
std::string returns_json(const std::string& file, const job::ReturnsQuestion& question,
                         const job::ReturnsFinding& finding);

}  // namespace pumpwright

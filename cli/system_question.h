// What `pumpwright system` was asked, and how its finding is printed.
#pragma once

#include <string>

#include "job/sheets/system_finding.h"

namespace pumpwright {

struct SystemQuestion {
  std::string file;
  job::SystemSheet sheet;
};

std::string system_text(const SystemQuestion& question, const job::SystemFinding& finding, bool colour);
std::string system_json(const SystemQuestion& question, const job::SystemFinding& finding);

}  // namespace pumpwright

// What `pumpwright align` was asked, and how it is said.
#pragma once

#include <string>

#include "job/sheets/alignment_finding.h"

namespace pumpwright {

struct AlignQuestion {
  std::string file;
  job::AlignmentSheet align;
};

std::string align_text(const AlignQuestion& question, const job::AlignmentFinding& finding, bool colour);
std::string align_json(const AlignQuestion& question, const job::AlignmentFinding& finding);

}  // namespace pumpwright

// What `pumpwright seal` prints: one sheet, as text or JSON.
#pragma once

#include <string>

#include "cli/job_session.h"
#include "job/seal_finding.h"

namespace pumpwright {

std::string seal_text(const JobSession& session, const job::SealQuestion& question,
                      const job::SealFinding& finding, job::Language language, bool colour);
std::string seal_json(const JobSession& session, const job::SealQuestion& question,
                      const job::SealFinding& finding, job::Language language);

}  // namespace pumpwright

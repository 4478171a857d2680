// What `pumpwright plan` prints.
#pragma once

#include <string>

#include "cli/job_session.h"
#include "job/text.h"

namespace pumpwright {

std::string plan_text(const JobSession& session, job::Language language);
std::string plan_json(const JobSession& session);

}  // namespace pumpwright

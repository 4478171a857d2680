// What a system came to, in words: the command prints them, a job's check and its record show them.
#pragma once

#include "job/sheets/system_finding.h"
#include "job/text.h"

namespace pumpwright::job {

// That pump and plant meet where they do and what the motor makes of it, or why they do not meet.
Text headline_text(const SystemSheet& sheet, const SystemFinding& finding);

// What is to be minded of the readings; empty when nothing is.
Text loads_disagree_text(const SystemFinding& finding);

}  // namespace pumpwright::job

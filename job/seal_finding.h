// Whether a seal lives in its service: its checks, what the engine makes of it, and one word for both.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "job/job_state.h"
#include "job/seal_service.h"
#include "job/tried_conditions.h"

namespace pumpwright::job {

struct SealFinding {
  SealService service;
  std::vector<CheckFinding> checks;  // of the seal and its service, in plan order
  Verdict verdict = Verdict::unproven;
  Verdict in_service = Verdict::unproven;  // of those that ask whether this seal suits this service
  Verdict as_set = Verdict::unproven;      // of those that ask whether it is set right

  const CheckFinding* find(std::string_view check) const;  // null when the plan has no such check
};

// The three a seal stands or falls with, most telling first; a plan may lack any of them.
std::span<const std::string_view> deciding_checks();

// The seal's checks and their verdict in one word: fail when one fails, pass when all pass and the make-up
// says enough for each of them to be asked, else unproven. A working length that is tried takes the place of
// the measured one, so the check of the measured one is left out.
SealFinding find_of_seal(const SealQuestion& question, const JobState& state);

}  // namespace pumpwright::job

// What `pumpwright seal` is asked: a job, and the conditions to try in place of the make-up's.
#pragma once

#include <optional>
#include <string>

#include "cli/job_session.h"
#include "job/seal_service.h"

namespace pumpwright {

// As written on the command line; empty means the make-up's own.
struct TriedConditions {
  std::string temperature;
  std::string suction;
  std::string head;
  std::string speed;
  std::string altitude;
  std::string length;  // working length
};

struct SealQuestion {
  job::Snapshot snapshot;  // with the conditions that are tried
  std::optional<Length> length;
  bool tried = false;  // any condition differs from the make-up's
};

// Throws BadInput naming the flag. The frozen limits stay as they are; the tried conditions replace the
// make-up's.
SealQuestion ask(const TriedConditions& tried, const job::Snapshot& snapshot);

struct SealFinding {
  job::SealService service;
  std::vector<job::CheckFinding> checks;  // of the seal and its service, in plan order
  job::Verdict verdict = job::Verdict::unproven;
};

// The seal's checks and their verdict in one word: fail when one fails, pass when all pass, else unproven.
SealFinding answer(const SealQuestion& question, const job::JobState& state);

std::string seal_text(const JobSession& session, const SealQuestion& question, const SealFinding& finding,
                      job::Language language, bool colour);
std::string seal_json(const JobSession& session, const SealQuestion& question, const SealFinding& finding,
                      job::Language language);

}  // namespace pumpwright

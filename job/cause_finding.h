// Why a pump came back: what was found at its strip-down and what its job's own numbers say, weighed
// together.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/reliability/cause_diagnosis.h"
#include "job/cause_tables.h"
#include "job/job_state.h"
#include "job/judgement.h"
#include "job/sheets/strip_down_sheet.h"
#include "job/snapshot.h"

namespace pumpwright::job {

// Who says that a finding is there or not.
enum class SaidBy { nobody, hand, width, hardness, check };

// How far the track is wider than the face that made it: what the faces moved against each other.
struct TrackMoved {
  Length excess;    // under 0: narrower
  Length expanded;  // of 95 % coverage, from the calliper's graduation in both widths
};

struct CauseFinding {
  reliability::Evidence evidence;    // one for each finding of the tables
  std::vector<SaidBy> said_by;       // likewise
  std::vector<std::string> unknown;  // words the catalog at hand does not have; left out
  std::optional<TrackMoved> track;
  reliability::CauseDiagnosis diagnosis;

  bool tells() const { return !diagnosis.named.empty(); }
};

// Of a strip-down alone. BadInput "found" with more findings than inference takes.
CauseFinding cause_of(const CauseTables& tables, const StripDownSheet& sheet);

// With the verdicts of its job's checks beside it: a fail that the catalog ties to a finding says that it is
// there, a pass that it is not. A hand goes before a check.
CauseFinding cause_of(const CauseTables& tables, const StripDownSheet& sheet, const Judgement& judgement);

// Of a job: its last standing strip-down and its checks. Nothing when the strip-down was not read.
std::optional<CauseFinding> cause_of(const CauseTables& tables, const Snapshot& snapshot,
                                     const JobState& state, const Judgement& judgement);

// The strip-down of a job as it was read; nothing when it was not.
std::optional<StripDownSheet> strip_down_of(const Snapshot& snapshot, const JobState& state);

}  // namespace pumpwright::job

// What `pumpwright judge` prints.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/job_session.h"
#include "job/text.h"

namespace pumpwright {

// A check as it stood under the frozen snapshot and as it stands under the catalog at hand; either is absent
// when that plan has no such check.
struct CheckState {
  job::Verdict verdict = job::Verdict::not_taken;
  job::Reason reason = job::Reason::not_taken;
  std::string limit;  // the deciding one, as written, with its source; empty when there is none
  bool operator==(const CheckState&) const = default;
};
struct CheckChange {
  std::string check;
  std::optional<CheckState> was;
  std::optional<CheckState> now;
};

// The explicit act of judging again.
struct JudgedAgain {
  std::string catalog_digest;
  std::string program;
  std::string refused;  // why the record can not be judged by the plan at hand; empty when it can
  std::vector<CheckChange> changes;
};

struct JobVerdict {
  job::JobState state;
  job::Judgement judgement;
  std::optional<JudgedAgain> again;
};

// Judges by session.snapshot; `again`: also by the catalog at hand. Throws BadInput.
JobVerdict verdict_on(const JobSession& session, const CatalogFiles& files, bool again);

std::string judge_text(const JobSession& session, const JobVerdict& verdict, job::Language language,
                       bool colour);
std::string judge_json(const JobSession& session, const JobVerdict& verdict, job::Language language);

}  // namespace pumpwright

// Judging a job again by the catalog at hand, and what that changes.
#include <fmt/format.h>

#include "cli/job_wording.h"
#include "cli/judge_report.h"

namespace pumpwright {
namespace {

std::optional<CheckState> state_of(const job::Snapshot& snapshot, const job::Judgement& judgement,
                                   const std::string& check_id) {
  const auto* check = snapshot.plan.find(check_id);
  const auto* finding = judgement.find(check_id);
  if (check == nullptr || finding == nullptr) return std::nullopt;
  CheckState state{.verdict = finding->verdict, .reason = finding->reason, .limit = ""};
  if (!check->limits.empty()) {
    const auto& limit = check->limits.front();
    state.limit = fmt::format("{}; {}", limit_text(limit, job::Language::english), citation(limit.source));
  }
  return state;
}

void add_change(JudgedAgain& again, const std::string& check, const std::optional<CheckState>& was,
                const std::optional<CheckState>& now) {
  if (was != now) again.changes.push_back({.check = check, .was = was, .now = now});
}

JudgedAgain judged_again(const JobSession& session, const CatalogFiles& files, const job::Judgement& before) {
  JudgedAgain again;
  try {
    const auto snapshot = snapshot_at_hand(session, files);
    again.catalog_digest = snapshot.catalog_digest;
    again.program = snapshot.program;
    const auto after = judged(session, snapshot).judgement;
    for (const auto& finding : before.findings)
      add_change(again, finding.check, state_of(session.snapshot, before, finding.check),
                 state_of(snapshot, after, finding.check));
    for (const auto& finding : after.findings)
      if (before.find(finding.check) == nullptr)
        add_change(again, finding.check, std::nullopt, state_of(snapshot, after, finding.check));
  } catch (const BadInput& error) {
    again.refused = error.what();
  }
  return again;
}

}  // namespace

JobVerdict verdict_on(const JobSession& session, const CatalogFiles& files, bool again) {
  auto [state, judgement] = judged(session, session.snapshot);
  JobVerdict verdict{.state = std::move(state), .judgement = std::move(judgement), .again = std::nullopt};
  if (again) verdict.again = judged_again(session, files, verdict.judgement);
  return verdict;
}

}  // namespace pumpwright

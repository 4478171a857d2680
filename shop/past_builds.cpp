#include "shop/past_builds.h"

#include "job/cause_finding.h"
#include "shop/job_fold.h"
#include "shop/job_index.h"

namespace pumpwright::shop {
namespace {

job::JobLog folded(const store::EventLog& events, const std::string& number) {
  return log_of(events.read(job_stream(number)));
}

PastBuild build_of(const JobCard& card, const job::JobLog& log) {
  return {card, log.job().file.header, log.state().deviations,
          job::strip_down_of(log.snapshot(), log.state()), values_of(log)};
}

}  // namespace

PumpPast past_of(const store::EventLog& events, const std::string& number,
                 const std::vector<JobCard>& cards) {
  PumpPast past;
  for (const auto& card : cards) {
    const job::JobLog log = folded(events, card.number);
    if (log.opened()) past.builds.push_back(build_of(card, log));
  }
  if (!past.builds.empty()) past.now = values_of(folded(events, number));
  return past;
}

}  // namespace pumpwright::shop

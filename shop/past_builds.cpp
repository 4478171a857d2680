#include "shop/past_builds.h"

#include "job/cause_finding.h"
#include "shop/job_index.h"

namespace pumpwright::shop {
namespace {

constexpr std::string_view of_check = "check/";

job::JobLog folded(const store::EventLog& events, const std::string& number) {
  job::JobLog log;
  for (const auto& e : events.read(job_stream(number)))
    log.apply({e.seq, e.type, e.actor, e.accepted_at, e.payload});
  return log;
}

PastBuild build_of(const JobCard& card, const job::JobLog& log) {
  return {card, log.job().file.header, log.state().deviations,
          job::strip_down_of(log.snapshot(), log.state()), values_of(log)};
}

}  // namespace

std::string check_of_series(const std::string& series) {
  return series.starts_with(of_check) ? series.substr(of_check.size()) : std::string();
}

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

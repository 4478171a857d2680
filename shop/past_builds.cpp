#include "shop/past_builds.h"

#include "job/cause_finding.h"
#include "shop/job_fold.h"
#include "shop/job_index.h"
#include "shop/old_shelf.h"

namespace pumpwright::shop {
namespace {

job::JobLog folded(const store::EventLog& events, const std::string& number) {
  return log_of(events.read(job_stream(number)));
}

PastBuild build_of(const JobCard& card, const job::JobLog& log) {
  return {card,
          log.job().file.header,
          log.state().deviations,
          job::strip_down_of(log.snapshot(), log.state()),
          values_of(log),
          std::nullopt};
}

PastBuild build_of(const JobCard& card, const OldJob& old) {
  PastBuild build;
  build.card = card;
  build.header = {.number = old.number,
                  .customer = old.customer,
                  .pump = old.pump,
                  .serial = old.serial,
                  .reason = old.reason,
                  .came_for = old.came_for,
                  .opened = old.came_in};
  for (const auto& [check, reading] : old.readings)
    build.values.push_back({.stream = old_stream(old.number),
                            .series = series_of(check),
                            .at = card.opened,
                            .ref = "old",
                            .number = reading.si,
                            .fields = {}});
  build.old = old;
  return build;
}

}  // namespace

std::vector<PastBuild> past_builds(const store::EventLog& events, const std::vector<JobCard>& cards) {
  std::vector<PastBuild> builds;
  for (const auto& card : cards) {
    if (card.old) {
      if (const auto old = old_job(events, card.number)) builds.push_back(build_of(card, *old));
      continue;
    }
    const job::JobLog log = folded(events, card.number);
    if (log.opened()) builds.push_back(build_of(card, log));
  }
  return builds;
}

}  // namespace pumpwright::shop

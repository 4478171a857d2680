// What the shop remembers of a pump: its earlier jobs here, as a hand wants to know them that opens it again.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "job/job_log.h"
#include "job/sheets/strip_down_sheet.h"
#include "shop/job_card.h"
#include "shop/old_job.h"
#include "store/event_log.h"
#include "store/index.h"

namespace pumpwright::shop {

struct PastBuild {
  JobCard card;
  job::JobHeader header;
  std::map<std::string, job::DeviationAccepted> deviations;  // by check
  std::optional<job::StripDownSheet> strip_down;             // as it was read
  std::vector<store::IndexValue> values;                     // readings that stand, as series "check/<id>"
  std::optional<OldJob> old;  // of a job from before this program: all that is known of it
};

struct PumpPast {
  std::vector<PastBuild> builds;       // of the same serial number, newest first
  std::vector<store::IndexValue> now;  // what stands in the job itself
};

// Behind those cards, in their order.
std::vector<PastBuild> past_builds(const store::EventLog& events, const std::vector<JobCard>& cards);

}  // namespace pumpwright::shop

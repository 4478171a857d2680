// The job file: one job as JSON, the way it is handed from hand to hand. docs/job.schema.json publishes the
// format.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/catalog.h"
#include "job/event.h"
#include "job/snapshot.h"

namespace pumpwright::job {

inline constexpr int job_file_version = 1;

struct JobHeader {
  std::string number;
  std::string customer;
  std::string pump;  // family or model as the shop names it
  std::string serial;
  std::string reason;  // why it came in
  UtcTime opened;
  bool invented = false;  // demonstration data
};

// A limit that a job, a customer or a pump family sets on one check of the plan.
struct LimitOverride {
  std::string check;
  Limit limit;
};

struct JobFile {
  JobHeader header;
  MakeUp make_up;  // as entered, not completed
  std::map<std::string, ShopInstrument> instruments;
  std::map<std::string, Adoption> adoptions;
  std::vector<LimitOverride> overrides;
  std::vector<Event> events;
  std::optional<Snapshot> snapshot;  // frozen when the plan was made
};

// Throws BadInput whose place is a JSON pointer.
JobFile decode_job_file(std::string_view bytes);

// The snapshot as the present catalog and program give it: the plan derived anew.
Snapshot derive_snapshot(const JobFile& job, const Catalog& catalog, std::span<const NamedBytes> step_files,
                         const std::string& program);

// The snapshot to judge with: the frozen one, else derived.
Snapshot snapshot_of(const JobFile& job, const Catalog& catalog, std::span<const NamedBytes> step_files,
                     const std::string& program);

// The frozen form written into a job file under the key "snapshot".
std::string encode_snapshot(const Snapshot& snapshot);

}  // namespace pumpwright::job

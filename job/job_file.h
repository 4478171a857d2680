// The job file: one job as JSON, the way it is handed from hand to hand. docs/job.schema.json publishes the
// format.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/catalog.h"
#include "job/event.h"
#include "job/json_reader.h"
#include "job/plan_generator.h"
#include "job/snapshot.h"

namespace pumpwright::job {

inline constexpr int job_file_version = 1;

// What brought the pump in, in one word: what life data needs, where `reason` says it in the hand's own.
enum class CameFor {
  not_said,
  fault,  // it did not hold what a build should hold
  other,  // taken out for another reason: plant shut down, line changed, planned overhaul
};

// "fault", "other"; empty for not said.
std::string_view word_of(CameFor came_for);
// Of such a word; not said for any other.
CameFor came_for_from(std::string_view word);

struct JobHeader {
  std::string number;
  std::string customer;
  std::string pump;  // family or model as the shop names it
  std::string serial;
  std::string reason;  // why it came in
  CameFor came_for = CameFor::not_said;
  UtcTime opened;
  bool invented = false;  // demonstration data
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

// The `job` object of a job file. Throws BadInput.
JobHeader decode_header(const JsonReader& json);

// Throws BadInput whose place is a JSON pointer.
JobFile decode_job_file(std::string_view bytes);

// The snapshot as the present catalog and program give it: the plan derived anew.
Snapshot derive_snapshot(const JobFile& job, const Catalog& catalog, std::span<const NamedBytes> step_files,
                         const std::string& program);

// The snapshot to judge with: the frozen one, else derived. Instruments and adopted limits that came to the
// job after it was frozen are added; none that was frozen is changed.
Snapshot snapshot_of(const JobFile& job, const Catalog& catalog, std::span<const NamedBytes> step_files,
                     const std::string& program);

// The job file again with the snapshot frozen into it under the key "snapshot"; everything else stays as it
// was. Throws BadInput when `bytes` is no job file or has a snapshot already.
std::string freeze(std::string_view bytes, const Snapshot& snapshot);

}  // namespace pumpwright::job

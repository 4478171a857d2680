// A job file, or the record a shop exported, opened for planning or judging: what is in it, and what its
// verdicts depend on.
#pragma once

#include <string>

#include "catalog/catalog.h"
#include "cli/catalog_files.h"
#include "job/job_file.h"
#include "job/judgement.h"

namespace pumpwright {

struct JobSession {
  std::string path;
  std::string bytes;
  job::JobFile file;
  bool frozen = false;     // the job carries a snapshot
  job::Snapshot snapshot;  // the frozen one, else derived from the catalog at hand
};

// Throws BadInput (place: the file and the place in it).
JobSession open_job(const std::string& path, const CatalogFiles& files, std::istream& standard_input);

// The snapshot that the catalog and the program at hand give, whatever is frozen in the job.
job::Snapshot snapshot_at_hand(const JobSession& session, const CatalogFiles& files);

// What stands after all events of the job, and the verdicts, under `snapshot`. Throws BadInput as open_job.
struct JudgedState {
  job::JobState state;
  job::Judgement judgement;
};
JudgedState judged(const JobSession& session, const job::Snapshot& snapshot);

}  // namespace pumpwright

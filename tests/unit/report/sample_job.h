// A small hand-built job for tests of drawings and documents: every kind of check once, every verdict once,
// names and readings invented.
#pragma once

#include <string>
#include <vector>

#include "report/build_record.h"

namespace pumpwright::report::testing {

struct SampleJob {
  job::JobHeader header;
  job::Snapshot snapshot;
  job::JobState state;
  job::Judgement judgement;
  job::Section section;
  std::string record_hash;

  BuildRecordInput input(job::Language language = job::Language::english, Paper paper = Paper::a4) const {
    return {header, snapshot, state, judgement, section, record_hash, language, paper};
  }
  job::Check& check(const std::string& id);
  job::CheckFinding& finding(const std::string& id);
};

Written written(const std::string& text, Kind kind = Kind::length);

// `points` readings of a register sweep with the given amplitude, as a hand would write them.
job::SweepReading sweep_with(std::size_t points, double amplitude_thou, const std::string& mount);

// Evaluates the sweep as the judge would and puts it in as the standing reading of the check `sweep`.
void put_sweep(SampleJob& job, const job::SweepReading& sweep);

SampleJob sample_job();

// The same with nothing read, no limits and no dimensions.
SampleJob empty_job();

}  // namespace pumpwright::report::testing

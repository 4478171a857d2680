// The files that `pumpwright judge` writes: the build record, its drawings, its readings as a table.
#pragma once

#include <string>

#include "cli/judge_report.h"
#include "report/build_record.h"

namespace pumpwright {

// Where to write what; an empty path writes nothing.
struct RecordFiles {
  std::string report;    // PDF
  std::string drawings;  // directory, made when it is not there: an SVG and a PNG of every drawing
  std::string readings;  // CSV
  job::Language language = job::Language::english;
  report::Paper paper = report::Paper::a4;
};

// The hash printed on the record: BLAKE2b-256 over the job file exactly as it was read.
std::string record_hash(const JobSession& session);

// What documents of a job are made of. Refers to what is handed in.
report::BuildRecordInput record_input(const JobSession& session, const job::JobState& state,
                                      const job::Judgement& judgement, const job::Section& section,
                                      job::Language language, report::Paper paper);

// Throws BadInput naming "--report", "--drawings" or "--readings" when something can not be written.
void write_record(const JobSession& session, const JobVerdict& verdict, const RecordFiles& files);

}  // namespace pumpwright

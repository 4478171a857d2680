// The build record: one job on paper, for whoever trusts the pump in three years.
//
// Title block with job and make-up, verdict counts, to-scale half-section with every check at its place, open
// points, accepted deviations, the table of checks (reading as written, value, limit with rank and source,
// uncertainty, verdict as shape and word, reason; limits that lost beneath), a polar picture of every sweep,
// stack-up bars, replaced readings, released hold points, signature block, and a QR tag with job number and
// record hash. Text is searchable; the date in the document is that of the record's last event, so the same
// record always gives the same bytes (with the same fonts and drawing libraries).
#pragma once

#include <string>
#include <string_view>

#include "job/job_file.h"
#include "job/job_state.h"
#include "job/judgement.h"
#include "job/section.h"
#include "job/snapshot.h"
#include "job/text.h"
#include "report/canvas.h"

namespace pumpwright::report {

enum class Paper { a4, letter };

// "letter"; any other word is A4.
Paper paper_of(std::string_view word);
PageSize page_size(Paper paper);

struct BuildRecordInput {
  const job::JobHeader& header;
  const job::Snapshot& snapshot;
  const job::JobState& state;
  const job::Judgement& judgement;
  const job::Section& section;
  std::string record_hash;  // hexadecimal; printed in full once and shortened on every page
  job::Language language = job::Language::english;
  Paper paper = Paper::a4;
};

// The bytes of the PDF. Throws BadInput when job number and hash do not fit a QR tag; std::runtime_error when
// the drawing library fails (out of memory).
std::string build_record_pdf(const BuildRecordInput& input);

}  // namespace pumpwright::report

// One page for whoever owns the pump: what was found when it was stripped, why it came back in plain words,
// what was done, and what to change where it runs.
//
// Nothing of the shop's inner terms: no check ids, no limits with ranks. Says as much as the evidence does:
// where it does not tell, the letter says so. Lists are cut so that it stays on one page; the build record
// has all.
#pragma once

#include <string>

#include "job/cause_finding.h"
#include "report/build_record.h"

namespace pumpwright::report {

struct CustomerLetterInput {
  BuildRecordInput record;
  const job::CauseTables& tables;
  const job::StripDownSheet& strip_down;
  const job::CauseFinding& cause;
};

// The bytes of the PDF. Throws std::runtime_error when the drawing library fails (out of memory).
std::string customer_letter_pdf(const CustomerLetterInput& input);

}  // namespace pumpwright::report

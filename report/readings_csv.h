// Every judged reading of a job as a table for a spreadsheet: one row a standing reading of a check, and one
// for a check that is computed.
//
// Comma-separated by RFC 4180, UTF-8, a line of names first: job, serial, step, check, title, reading, time,
// actor, instrument, as_written, value, unit, standard_uncertainty, verdict, reason. Times in UTC; `value`
// and `standard_uncertainty` in the SI unit that `unit` names, empty where a check has no number. A text that
// a spreadsheet would take for a formula stands behind an apostrophe.
#pragma once

#include <string>

#include "report/build_record.h"

namespace pumpwright::report {

std::string readings_csv(const BuildRecordInput& input);

}  // namespace pumpwright::report

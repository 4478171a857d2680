// The strip-down as a check of a plan: that what was found is written down before it is thrown away. Why the
// pump came back is no verdict; job/cause_finding.h answers that.
#pragma once

#include <vector>

#include "job/json_reader.h"
#include "job/limit.h"
#include "job/sheets/sheet_check.h"

namespace pumpwright::job::stripping {

// Throws BadInput whose place is a JSON pointer into the sheet.
void try_planned(const JsonReader& whole);

std::vector<Limit> limits();

StripDownResult compute(const JsonReader& whole);

// Kept once anything was looked for, found or not.
SheetMeasured measure(const StripDownResult& result);

std::vector<SheetLine> lines(const StripDownResult& result);

}  // namespace pumpwright::job::stripping

// The pressure hold as checks of a plan: what its sheet asks before anything is read, and what a reading of
// it proves.
#pragma once

#include <string>
#include <vector>

#include "job/json_reader.h"
#include "job/limit.h"
#include "job/sheets/sheet_check.h"
#include "job/sheets/sheet_result.h"

namespace pumpwright::job::pressure_hold {

// Throws BadInput whose place is a JSON pointer into the sheet.
void try_planned(const JsonReader& whole);

// "leak-limit" when the sheet states one.
std::vector<std::string> tags(const JsonReader& whole);

// Of `held`: the rule's pressure and time, by its source. Of `leak`: the stated limit.
std::vector<Limit> limits(Judged judged, const JsonReader& whole);

PressureHoldResult compute(const JsonReader& whole);

// `held`: nothing leaked and no part saw more than its rating, provided the test proves anything; `leak`: the
// leak with its doubt.
SheetMeasured measure(Judged judged, const PressureHoldResult& result, const JsonReader& whole);

// What the test says, line by line.
std::vector<SheetLine> lines(const PressureHoldResult& result);

}  // namespace pumpwright::job::pressure_hold

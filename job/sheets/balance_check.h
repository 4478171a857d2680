// Balancing as a check of a plan: what its sheet asks before the first run, and what the runs prove.
#pragma once

#include <optional>
#include <vector>

#include "job/json_reader.h"
#include "job/limit.h"
#include "job/sheet_picture.h"
#include "job/sheets/sheet_check.h"

namespace pumpwright::job::balance {

// Throws BadInput whose place is a JSON pointer into the sheet.
void try_planned(const JsonReader& whole);

// What the grade permits, by its standard.
std::vector<Limit> limits(const JsonReader& whole);

BalanceResult compute(const JsonReader& whole);

// Whether what is left in every plane, or at every bearing, keeps to what is permitted; what to add or take
// out stands in the remarks.
SheetMeasured measure(const BalanceResult& result, const JsonReader& whole);

std::vector<SheetLine> lines(const BalanceResult& result);

std::optional<SheetPicture> picture(const BalanceResult& result);

}  // namespace pumpwright::job::balance

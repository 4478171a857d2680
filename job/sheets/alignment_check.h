// The alignment of two coupled shafts as a check of a plan: what its sheet asks before the first sweep, and
// what the sweeps prove.
#pragma once

#include <optional>
#include <vector>

#include "job/json_reader.h"
#include "job/limit.h"
#include "job/sheet_picture.h"
#include "job/sheets/sheet_check.h"

namespace pumpwright::job::aligning {

// Throws BadInput whose place is a JSON pointer into the sheet.
void try_planned(const JsonReader& whole);

// The tolerance the make-up states.
std::vector<Limit> limits(const JsonReader& whole);

AlignmentResult compute(const JsonReader& whole);

// Whether offset and angularity keep to their tolerances warm; moves at the feet stand in the remarks.
SheetMeasured measure(const AlignmentResult& result);

std::vector<SheetLine> lines(const AlignmentResult& result);

std::optional<SheetPicture> picture(const AlignmentResult& result);

}  // namespace pumpwright::job::aligning

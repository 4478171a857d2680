// Overall vibration as a check of a plan: the highest reading of the housings against unrestricted running.
#pragma once

#include <optional>
#include <vector>

#include "job/json_reader.h"
#include "job/limit.h"
#include "job/sheet_picture.h"
#include "job/sheets/sheet_check.h"

namespace pumpwright::job::vibrating {

// Throws BadInput whose place is a JSON pointer into the sheet.
void try_planned(const JsonReader& whole);

// The end of zone B, remembered until the make-up says who compared it.
std::vector<Limit> limits(const JsonReader& whole);

VibrationResult compute(const JsonReader& whole);

SheetMeasured measure(const VibrationResult& result);

std::vector<SheetLine> lines(const VibrationResult& result);

// Every place as a bar beside the ends of the zones.
std::optional<SheetPicture> picture(const VibrationResult& result);

}  // namespace pumpwright::job::vibrating

// Pump, plant and motor as a check of a plan: where they meet, and whether the motor stands it.
#pragma once

#include <optional>
#include <vector>

#include "job/json_reader.h"
#include "job/limit.h"
#include "job/sheet_picture.h"
#include "job/sheets/sheet_check.h"

namespace pumpwright::job::running {

// Throws BadInput whose place is a JSON pointer into the sheet.
void try_planned(const JsonReader& whole);

// The motor's plate, or that pump and plant meet where no motor is stated.
std::vector<Limit> limits(const JsonReader& whole);

SystemResult compute(const JsonReader& whole);

// Whether they meet with the motor within its rating: by the curve alone while nothing was read.
SheetMeasured measure(const SystemResult& result);

std::vector<SheetLine> lines(const SystemResult& result);

// Head over flow: pumps, plant, and where they meet.
std::optional<SheetPicture> picture(const SystemResult& result);

}  // namespace pumpwright::job::running

// A pump's performance test as checks of a plan: what it promised, and what it asks of its motor.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/json_reader.h"
#include "job/limit.h"
#include "job/sheet_picture.h"
#include "job/sheets/sheet_check.h"

namespace pumpwright::job::performance {

// A job's test has a guarantee with its grade, or with tolerances of its own. Throws BadInput whose place is
// a JSON pointer into the sheet.
void try_planned(const JsonReader& whole);

// "driver" when the make-up states the motor's plate.
std::vector<std::string> tags(const JsonReader& whole);

// Of Judged::guarantee the agreed grade's cross, of Judged::motor_load the plate's service factor.
std::vector<Limit> limits(Judged judged, const JsonReader& whole);

PerformanceResult compute(const JsonReader& whole);

// Whether the guarantee is kept, or what part of its power the motor gives where it gives most.
SheetMeasured measure(Judged judged, const PerformanceResult& result);

std::vector<SheetLine> lines(const PerformanceResult& result);

// Head over flow: the points, the curve at the rated speed, the cross of what was promised.
std::optional<SheetPicture> picture(const PerformanceResult& result);

}  // namespace pumpwright::job::performance

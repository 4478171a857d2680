// The shaft in service as checks of a plan: its deflection at the seal's faces, its distance from a critical
// speed, the life of its bearings. All of it stands in the make-up; nothing is read at the bench.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/json_reader.h"
#include "job/limit.h"
#include "job/sheet_picture.h"
#include "job/sheets/sheet_check.h"

namespace pumpwright::job::shaft {

// Throws BadInput whose place is a JSON pointer into the sheet.
void try_planned(const JsonReader& whole);

// "bearing-life" when the sheet states the life that is wanted.
std::vector<std::string> tags(const JsonReader& whole);

std::vector<Limit> limits(Judged judged, const JsonReader& whole);

RotorResult compute(const JsonReader& whole);

SheetMeasured measure(Judged judged, const RotorResult& result);

std::vector<SheetLine> lines(const RotorResult& result);

std::optional<SheetPicture> picture(const RotorResult& result);

}  // namespace pumpwright::job::shaft

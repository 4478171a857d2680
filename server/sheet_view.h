// What a bench test came to, for the page: its figures line by line, and its picture as strokes and words.
#pragma once

#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "job/sheet_picture.h"
#include "job/sheets/sheet_result.h"

namespace pumpwright::server {

nlohmann::json picture_json(const job::SheetPicture& picture);

nlohmann::json lines_json(const std::vector<job::SheetLine>& lines);

}  // namespace pumpwright::server

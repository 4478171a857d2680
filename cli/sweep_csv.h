// Readings round a turn as a spreadsheet or a gauge hands them over: a CSV file with the columns `angle_deg`
// and `reading`.
//
// First line: the two names, in either order. Columns are separated by comma, semicolon or tab, as the first
// line has it; a cell may stand in double quotes. UTF-8, with or without byte order mark; any line ends;
// empty lines are skipped. An angle is degrees ("30", "30°"); a reading is a length as a hand writes it, and
// a bare number takes the default unit.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "engine/quantity/parse.h"

namespace pumpwright {

struct SweepRow {
  std::size_t line = 0;  // in the file, from 1
  Written angle;
  Written reading;
};

constexpr std::size_t sweep_rows_max = 100'000;

// At most sweep_rows_max rows in lines of at most 4096 bytes; angles within a hundred turns, readings within
// 1 m; no angle twice, but the last may repeat the first. Throws BadInput (place: "line N") for anything
// else. Whether the readings make a sweep is the engine's to say.
std::vector<SweepRow> read_sweep_csv(std::string_view bytes, const Unit& default_unit);

}  // namespace pumpwright

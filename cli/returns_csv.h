// The history of pumps that went out, as a spreadsheet hands it over: a CSV file with a header and one row
// for every time a pump went out.
//
// Needed are a column with the time (how long the pump was out) and one with the event (`returned`,
// `running` or `replaced`). A group, the pump's number and readings at the build may be named; other columns
// are left alone. CSV rules: job/csv_lines.h.
#pragma once

#include <cstddef>
#include <string_view>

#include "engine/quantity/unit.h"
#include "job/returns_table.h"

namespace pumpwright {

constexpr std::size_t returns_rows_max = 100'000;

// A bare time takes `default_unit`; without one every time must carry its unit. Times from 1 s to 200
// years. Throws BadInput (place: "line N") naming column, value and what would be valid; and for a group or a
// covariate whose name says that it stands for people, since pumps are compared here and nobody's work.
job::ReturnsTable read_returns_csv(std::string_view bytes, const job::ReturnsColumns& columns,
                                   const Unit* default_unit);

}  // namespace pumpwright

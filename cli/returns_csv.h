// The history of pumps that went out, as a spreadsheet hands it over: a CSV file with a header and one row
// for every time a pump went out.
//
// Needed are a column with the time (how long the pump was out) and one with the event (`returned`,
// `running` or `replaced`). A group, the pump's number and readings at the build may be named; other columns
// are left alone. CSV rules: csv_lines.h.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/quantity/parse.h"
#include "engine/reliability/life.h"

namespace pumpwright {

// Names as the first line has them. A column named by nobody but present under its usual name ("group",
// "pump") is taken all the same.
struct ReturnsColumns {
  std::string time = "time";
  std::string event = "event";
  std::optional<std::string> group{};
  std::optional<std::string> pump{};
  std::vector<std::string> covariates{};
};

struct ReturnsRow {
  std::size_t line = 0;  // in the file, from 1
  Written time;
  reliability::Ending ending = reliability::Ending::running;
  std::string group;                            // empty when there is no such column
  std::string pump;                             // likewise
  std::vector<std::optional<double>> readings;  // one for each covariate; nothing in an empty cell
};

struct ReturnsTable {
  std::vector<ReturnsRow> rows;  // at least one
  bool has_group = false;
  bool has_pump = false;
  std::vector<std::string> left_alone;  // columns nobody asked for
};

constexpr std::size_t returns_rows_max = 100'000;
constexpr std::size_t returns_columns_max = 200;

// "returned", "running", "replaced".
const char* word_for(reliability::Ending ending);

// A bare time takes `default_unit`; without one every time must carry its unit. Times from 1 s to 200
// years. Throws BadInput (place: "line N") naming column, value and what would be valid; and for a group or a
// covariate whose name says that it stands for people, since pumps are compared here and nobody's work.
ReturnsTable read_returns_csv(std::string_view bytes, const ReturnsColumns& columns,
                              const Unit* default_unit);

}  // namespace pumpwright

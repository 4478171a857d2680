// Pumps that went out, one row for each time: what a list of returns is worked out from, whether it came from
// a spreadsheet or from the shop's record.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/quantity/unit.h"
#include "engine/reliability/life.h"

namespace pumpwright::job {

// How a list says that a life ended.
inline constexpr std::array<std::pair<std::string_view, reliability::Ending>, 3> ending_words{
    {{"returned", reliability::Ending::returned},
     {"running", reliability::Ending::running},
     {"replaced", reliability::Ending::replaced}}};
std::string_view word_for(reliability::Ending ending);

// Names as the list has them. A column named by nobody but present under its usual name ("group", "pump") is
// taken all the same.
struct ReturnsColumns {
  std::string time = "time";
  std::string event = "event";
  std::optional<std::string> group{};
  std::optional<std::string> pump{};
  std::vector<std::string> covariates{};
};

struct ReturnsRow {
  std::size_t line = 0;  // in the list, from 1
  Time time;
  reliability::Ending ending = reliability::Ending::running;
  std::string group;                            // empty when there is no such column
  std::string pump;                             // likewise
  std::vector<std::optional<double>> readings;  // one for each covariate; nothing in an empty cell
};

struct ReturnsTable {
  std::vector<ReturnsRow> rows;  // at least one
  const Unit* unit = nullptr;    // in which times are shown
  bool has_group = false;
  bool has_pump = false;
  std::vector<std::string> left_alone;  // columns nobody asked for
};

}  // namespace pumpwright::job

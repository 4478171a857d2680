#include "cli/sweep_csv.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "job/csv_lines.h"

namespace pumpwright {
namespace {

constexpr double angle_max_rad = 100 * 2 * pi;  // a hundred turns
constexpr double reading_max_m = 1;
constexpr std::string_view header_expected = "a first line \"angle_deg,reading\"";

struct Layout {
  char separator = ',';
  std::size_t angle = 0;  // number of the column
  std::size_t reading = 1;
};

Layout layout_of(std::string_view header, std::size_t number) {
  Layout layout{.separator = csv_separator(header)};
  const auto names = csv_cells(header, layout.separator, number);
  const auto column = [&](std::string_view name) {
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end())
      refuse_csv(number, std::string(name), header, std::string(header_expected) + " that names this column");
    return static_cast<std::size_t>(found - names.begin());
  };
  layout.angle = column("angle_deg");
  layout.reading = column("reading");
  if (names.size() != 2) refuse_csv(number, "columns", header, std::string(header_expected) + " and no more");
  return layout;
}

SweepRow row_of(std::string_view line, std::size_t number, const Layout& layout, const Unit& default_unit) {
  const auto cells = csv_cells(line, layout.separator, number);
  if (cells.size() != 2)
    refuse_csv(number, "columns", line,
               "two cells, angle_deg and reading (a decimal comma needs double quotes or ';' between the "
               "columns)");
  for (const auto& [column, name] :
       {std::pair(layout.angle, "angle_deg"), std::pair(layout.reading, "reading")})
    if (cells[column].empty()) refuse_csv(number, name, "nothing", "two cells, angle_deg and reading");
  const Unit& degree = unit_with_symbol("°", Kind::angle);
  SweepRow row{.line = number, .angle = {}, .reading = {}};
  try {
    row.angle =
        parse_written(cells[layout.angle], Kind::angle, {.field = "angle_deg", .default_unit = &degree});
    row.reading = parse_written(cells[layout.reading], Kind::length,
                                {.field = "reading", .default_unit = &default_unit});
  } catch (const BadInput& error) {
    throw error.at(csv_place(number));
  }
  if (std::abs(row.angle.si) > angle_max_rad)
    refuse_csv(number, "angle_deg", cells[layout.angle],
               "the place under the plunger, at most 36000 degrees");
  if (std::abs(row.reading.si) > reading_max_m)
    refuse_csv(number, "reading", cells[layout.reading], "an indicator reading of at most 1 m");
  return row;
}

// The very same angle twice; only the last reading may repeat the first.
void refuse_repeated_angles(const std::vector<SweepRow>& rows) {
  std::map<double, std::size_t> seen;  // angle to row
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto [at, is_new] = seen.emplace(rows[i].angle.si, i);
    if (is_new || (at->second == 0 && i + 1 == rows.size())) continue;
    refuse_csv(rows[i].line, "angle_deg", rows[i].angle.text,
               fmt::format("an angle that line {} does not have already; a second turn goes on past 360",
                           rows[at->second].line));
  }
}

}  // namespace

std::vector<SweepRow> read_sweep_csv(std::string_view bytes, const Unit& default_unit) {
  CsvLines lines(bytes);
  const auto header = lines.next();
  if (!header) refuse_csv(1, "file", "nothing", std::string(header_expected) + " and readings below it");
  const Layout layout = layout_of(*header, lines.number());
  std::vector<SweepRow> rows;
  while (const auto line = lines.next()) {
    if (rows.size() == sweep_rows_max)
      refuse_csv(lines.number(), "readings", fmt::format("more than {}", sweep_rows_max),
                 fmt::format("at most {} readings", sweep_rows_max));
    rows.push_back(row_of(*line, lines.number(), layout, default_unit));
  }
  refuse_repeated_angles(rows);
  return rows;
}

}  // namespace pumpwright

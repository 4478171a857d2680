#include "cli/sweep_csv.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "cli/display_text.h"

namespace pumpwright {
namespace {

constexpr std::size_t line_bytes_max = 4096;
constexpr double angle_max_rad = 100 * 2 * pi;  // a hundred turns
constexpr double reading_max_m = 1;
constexpr std::string_view header_expected = "a first line \"angle_deg,reading\"";

std::string place_of(std::size_t line) {
  return fmt::format("line {}", line);
}

[[noreturn]] void refuse(std::size_t line, std::string field, std::string_view value, std::string expected) {
  throw BadInput({.field = std::move(field),
                  .place = place_of(line),
                  .value = one_line(value),
                  .expected = std::move(expected)});
}

std::string_view trimmed(std::string_view text) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && is_space(text.front()))
    text.remove_prefix(1);
  while (!text.empty() && is_space(text.back()))
    text.remove_suffix(1);
  return text;
}

// Hands out one line after the other, whatever its end: LF, CR LF or CR.
class Lines {
 public:
  explicit Lines(std::string_view bytes) : rest_(bytes) {}

  // The next line that is not empty; nothing at the end of the file.
  std::optional<std::string_view> next() {
    while (!rest_.empty()) {
      const auto end = std::min(rest_.find_first_of("\r\n"), rest_.size());
      const auto line = rest_.substr(0, end);
      const bool two = rest_.substr(end).starts_with("\r\n");
      rest_.remove_prefix(std::min(rest_.size(), end + (two ? 2 : 1)));
      ++number_;
      if (line.size() > line_bytes_max)
        refuse(number_, "line", line.substr(0, 40), fmt::format("lines of at most {} bytes", line_bytes_max));
      require_text(line);
      if (!trimmed(line).empty()) return line;
    }
    return std::nullopt;
  }

  std::size_t number() const { return number_; }

 private:
  void require_text(std::string_view line) const {
    const bool binary = line.find('\0') != std::string_view::npos;
    if (binary || first_invalid_utf8(line) != std::string_view::npos)
      refuse(number_, "text", line, "a CSV file in UTF-8");
  }

  std::string_view rest_;
  std::size_t number_ = 0;
};

char separator_of(std::string_view header) {
  for (const char c : {';', '\t', ','})
    if (header.find(c) != std::string_view::npos) return c;
  return ',';
}

// Cells of one line; a quoted one may hold the separator and doubled quotes.
std::vector<std::string> cells_of(std::string_view line, char separator, std::size_t number) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quoted && c == '"' && line.substr(i + 1).starts_with('"')) {
      cells.back() += c;
      ++i;
    } else if (c == '"' && (quoted || trimmed(cells.back()).empty())) {
      quoted = !quoted;
    } else if (c == separator && !quoted) {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  if (quoted) refuse(number, "cell", line, "a closing double quote");
  for (auto& cell : cells)
    cell = std::string(trimmed(cell));
  return cells;
}

struct Layout {
  char separator = ',';
  std::size_t angle = 0;  // number of the column
  std::size_t reading = 1;
};

Layout layout_of(std::string_view header, std::size_t number) {
  Layout layout{.separator = separator_of(header)};
  const auto names = cells_of(header, layout.separator, number);
  const auto column = [&](std::string_view name) {
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end())
      refuse(number, std::string(name), header, std::string(header_expected) + " that names this column");
    return static_cast<std::size_t>(found - names.begin());
  };
  layout.angle = column("angle_deg");
  layout.reading = column("reading");
  if (names.size() != 2) refuse(number, "columns", header, std::string(header_expected) + " and no more");
  return layout;
}

SweepRow row_of(std::string_view line, std::size_t number, const Layout& layout, const Unit& default_unit) {
  const auto cells = cells_of(line, layout.separator, number);
  if (cells.size() != 2)
    refuse(number, "columns", line,
           "two cells, angle_deg and reading (a decimal comma needs double quotes or ';' between the "
           "columns)");
  for (const auto& [column, name] :
       {std::pair(layout.angle, "angle_deg"), std::pair(layout.reading, "reading")})
    if (cells[column].empty()) refuse(number, name, "nothing", "two cells, angle_deg and reading");
  const Unit& degree = unit_with_symbol("°", Kind::angle);
  SweepRow row{.line = number, .angle = {}, .reading = {}};
  try {
    row.angle =
        parse_written(cells[layout.angle], Kind::angle, {.field = "angle_deg", .default_unit = &degree});
    row.reading = parse_written(cells[layout.reading], Kind::length,
                                {.field = "reading", .default_unit = &default_unit});
  } catch (const BadInput& error) {
    throw error.at(place_of(number));
  }
  if (std::abs(row.angle.si) > angle_max_rad)
    refuse(number, "angle_deg", cells[layout.angle], "the place under the plunger, at most 36000 degrees");
  if (std::abs(row.reading.si) > reading_max_m)
    refuse(number, "reading", cells[layout.reading], "an indicator reading of at most 1 m");
  return row;
}

// The very same angle twice; only the last reading may repeat the first.
void refuse_repeated_angles(const std::vector<SweepRow>& rows) {
  std::map<double, std::size_t> seen;  // angle to row
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto [at, is_new] = seen.emplace(rows[i].angle.si, i);
    if (is_new || (at->second == 0 && i + 1 == rows.size())) continue;
    refuse(rows[i].line, "angle_deg", rows[i].angle.text,
           fmt::format("an angle that line {} does not have already; a second turn goes on past 360",
                       rows[at->second].line));
  }
}

}  // namespace

std::vector<SweepRow> read_sweep_csv(std::string_view bytes, const Unit& default_unit) {
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  Lines lines(bytes);
  const auto header = lines.next();
  if (!header) refuse(1, "file", "nothing", std::string(header_expected) + " and readings below it");
  const Layout layout = layout_of(*header, lines.number());
  std::vector<SweepRow> rows;
  while (const auto line = lines.next()) {
    if (rows.size() == sweep_rows_max)
      refuse(lines.number(), "readings", fmt::format("more than {}", sweep_rows_max),
             fmt::format("at most {} readings", sweep_rows_max));
    rows.push_back(row_of(*line, lines.number(), layout, default_unit));
  }
  refuse_repeated_angles(rows);
  return rows;
}

}  // namespace pumpwright

#include "cli/returns_csv.h"

#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "engine/quantity/parse.h"
#include "job/csv_lines.h"

namespace pumpwright {
namespace {

using job::ReturnsColumns;
using job::ReturnsRow;
using job::ReturnsTable;
using reliability::Ending;

constexpr std::size_t covariates_max = 20;
constexpr std::size_t name_bytes_max = 80;
constexpr double time_min_s = 1;
constexpr double time_max_s = 200.0 * 365.25 * 86400;

// Words a column about people goes by.
constexpr std::array people_words{"technician", "person",  "people",   "name",     "initials", "worker",
                                  "employee",   "builder", "operator", "mechanic", "fitter",   "hand",
                                  "signed",     "tecnico", "técnico",  "persona",  "nombre",   "iniciales"};

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

// Whether one of the words stands in the name by itself: "technician_id" does, "handle" does not.
bool is_about_people(const std::string& column) {
  std::string rest = lower(column);
  std::replace_if(
      rest.begin(), rest.end(), [](char c) { return c == '_' || c == '-' || c == '.'; }, ' ');
  rest = " " + rest + " ";
  return std::any_of(people_words.begin(), people_words.end(), [&](const char* word) {
    return rest.find(fmt::format(" {} ", word)) != std::string::npos;
  });
}

void refuse_people(const std::string& flag, const std::string& column) {
  if (is_about_people(column))
    throw BadInput({.field = flag,
                    .place = "",
                    .value = column,
                    .expected = "a column about pumps, parts or builds; people are not compared"});
}

// Where each wanted column stands.
struct Layout {
  char separator = ',';
  std::size_t count = 0;
  std::size_t time = 0;
  std::size_t event = 0;
  std::optional<std::size_t> group;
  std::optional<std::size_t> pump;
  std::vector<std::size_t> covariates;
};

class Header {
 public:
  explicit Header(CsvLines& lines) {
    CsvHeader header = csv_header(lines);
    number_ = lines.number();
    separator_ = header.separator;
    names_ = std::move(header.names);
  }

  std::size_t column(const std::string& name) {
    const auto found = find(name);
    if (!found)
      refuse_csv(number_, name, fmt::format("{}", fmt::join(names_, ", ")),
                 fmt::format("a first line that names a column \"{}\"", name));
    return *found;
  }

  // `name` must be there; without it the `usual` one may be.
  std::optional<std::size_t> column(const std::optional<std::string>& name, const std::string& usual) {
    if (name) return column(*name);
    return find(usual);
  }

  char separator() const { return separator_; }
  std::size_t count() const { return names_.size(); }

  std::vector<std::string> left_alone() const {
    std::vector<std::string> list;
    for (std::size_t i = 0; i < names_.size(); ++i)
      if (taken_.count(i) == 0 && !names_[i].empty()) list.push_back(names_[i]);
    return list;
  }

 private:
  std::optional<std::size_t> find(const std::string& name) {
    const auto found = std::find(names_.begin(), names_.end(), name);
    if (found == names_.end()) return std::nullopt;
    const auto at = static_cast<std::size_t>(found - names_.begin());
    taken_.insert(at);
    return at;
  }

  std::size_t number_ = 0;
  char separator_ = ',';
  std::vector<std::string> names_;
  std::set<std::size_t> taken_;
};

Layout layout_of(Header& header, const ReturnsColumns& columns) {
  Layout layout{.separator = header.separator(),
                .count = header.count(),
                .time = header.column(columns.time),
                .event = header.column(columns.event),
                .group = header.column(columns.group, "group"),
                .pump = header.column(columns.pump, "pump"),
                .covariates = {}};
  for (const auto& name : columns.covariates)
    layout.covariates.push_back(header.column(name));
  return layout;
}

// Reads the cells of one line.
class RowReader {
 public:
  RowReader(const ReturnsColumns& columns, const Layout& layout, const Unit* default_unit)
      : columns_(columns), layout_(layout), default_unit_(default_unit) {}

  ReturnsRow read(std::string_view line, std::size_t number, const Unit*& shown) const {
    const auto cells = csv_cells(line, layout_.separator, number);
    if (cells.size() != layout_.count)
      refuse_csv(number, "columns", line,
                 fmt::format("{} cells, as the first line has (a decimal comma needs double quotes or ';' "
                             "between the columns)",
                             layout_.count));
    ReturnsRow row{.line = number, .time = {}, .group = {}, .pump = {}, .readings = {}};
    const Written out = time(cells[layout_.time], number);
    row.time = seconds(out.si);
    if (shown == nullptr) shown = out.unit;
    row.ending = ending(cells[layout_.event], number);
    if (layout_.group) row.group = name(cells[*layout_.group], columns_.group.value_or("group"), number);
    if (layout_.pump) row.pump = name(cells[*layout_.pump], columns_.pump.value_or("pump"), number);
    for (std::size_t j = 0; j < layout_.covariates.size(); ++j)
      row.readings.push_back(reading(cells[layout_.covariates[j]], columns_.covariates[j], number));
    return row;
  }

 private:
  Written time(const std::string& cell, std::size_t number) const {
    Written time;
    try {
      time = parse_written(cell, Kind::time, {.field = columns_.time, .default_unit = default_unit_});
    } catch (const BadInput& error) {
      throw error.at(csv_place(number));
    }
    if (!(time.si >= time_min_s && time.si <= time_max_s))
      refuse_csv(number, columns_.time, cell,
                 "a time from 1 s to 200 years (a pump that failed at start-up: the shortest time you "
                 "can tell)");
    return time;
  }

  Ending ending(const std::string& cell, std::size_t number) const {
    for (const auto& [word, ending] : job::ending_words)
      if (lower(cell) == word) return ending;
    refuse_csv(number, columns_.event, cell.empty() ? "nothing" : cell,
               "returned (it came back), running (still out) or replaced (taken out for another reason)");
  }

  static std::string name(const std::string& cell, const std::string& column, std::size_t number) {
    if (cell.empty() || cell.size() > name_bytes_max)
      refuse_csv(number, column, cell.empty() ? "nothing" : cell,
                 fmt::format("a name of at most {} bytes", name_bytes_max));
    return cell;
  }

  static std::optional<double> reading(const std::string& cell, const std::string& column,
                                       std::size_t number) {
    if (cell.empty()) return std::nullopt;
    try {
      return parse_number(cell, {.field = column});
    } catch (const BadInput& error) {
      throw error.at(csv_place(number));
    }
  }

  const ReturnsColumns& columns_;
  const Layout& layout_;
  const Unit* default_unit_;
};

}  // namespace

ReturnsTable read_returns_csv(std::string_view bytes, const ReturnsColumns& columns,
                              const Unit* default_unit) {
  if (columns.group) refuse_people("--group", *columns.group);
  for (const auto& covariate : columns.covariates)
    refuse_people("--covariate", covariate);
  if (columns.covariates.size() > covariates_max)
    throw BadInput({.field = "--covariate",
                    .place = "",
                    .value = fmt::format("{} columns", columns.covariates.size()),
                    .expected = fmt::format("at most {} columns", covariates_max)});
  CsvLines lines(bytes);
  Header header(lines);
  const Layout layout = layout_of(header, columns);
  const RowReader reader(columns, layout, default_unit);
  ReturnsTable table{.rows = {},
                     .unit = nullptr,
                     .has_group = layout.group.has_value(),
                     .has_pump = layout.pump.has_value(),
                     .left_alone = header.left_alone()};
  while (const auto line = lines.next()) {
    if (table.rows.size() == returns_rows_max)
      refuse_csv(lines.number(), "rows", fmt::format("more than {}", returns_rows_max),
                 fmt::format("at most {} rows", returns_rows_max));
    table.rows.push_back(reader.read(*line, lines.number(), table.unit));
  }
  if (table.rows.empty())
    refuse_csv(lines.number(), "rows", "nothing", "at least one row below the first line");
  return table;
}

}  // namespace pumpwright

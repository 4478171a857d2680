#include "cli/points_file.h"

#include <sstream>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/input_file.h"
#include "engine/quantity/parse.h"
#include "job/csv_lines.h"
#include "job/json_reader.h"

namespace pumpwright {
namespace {

using nlohmann::json;

constexpr std::size_t rows_max = 200;

struct Column {
  std::string quantity;  // key of the point
  std::string name;      // in the header
  std::string unit;      // written behind every number; empty: a pure number
};

std::vector<Column> read_columns(const job::JsonReader& columns) {
  std::vector<Column> out;
  for (const auto& quantity : columns.keys()) {
    const auto at = columns.required(quantity);
    at.allow_only({"column", "unit"});
    const auto unit = at.optional("unit");
    out.push_back({quantity, at.required("column").text(200), unit ? unit->text(40) : ""});
  }
  if (out.empty())
    columns.refuse("the column of every quantity: {\"flow\": {\"column\": \"Q\", \"unit\": \"gpm\"}}");
  return out;
}

json value_of(const std::string& cell, const Column& column, std::size_t line) {
  try {
    const double number = parse_number(cell, {.field = column.name});
    if (column.unit.empty()) return number;
  } catch (const BadInput&) {
    refuse_csv(line, column.name, cell, "a number");
  }
  return cell + " " + column.unit;
}

json points_of(const std::string& bytes, const std::vector<Column>& columns) {
  CsvLines lines(bytes);
  const auto head = lines.next();
  if (!head)
    refuse_csv(1, "file", "nothing", "a first line with the names of the columns, and rows below it");
  const char separator = csv_separator(*head);
  const auto header = csv_cells(*head, separator, lines.number());
  std::vector<std::size_t> places;
  places.reserve(columns.size());
  for (const auto& column : columns)
    places.push_back(csv_column(header, column.name, lines.number()));
  json points = json::array();
  while (const auto line = lines.next()) {
    const auto cells = csv_cells(*line, separator, lines.number());
    json point = json::object();
    for (std::size_t i = 0; i < columns.size(); ++i)
      if (places[i] < cells.size() && !cells[places[i]].empty())
        point[columns[i].quantity] = value_of(cells[places[i]], columns[i], lines.number());
    points.push_back(std::move(point));
    if (points.size() > rows_max) refuse_csv(lines.number(), "rows", "more than 200", "at most 200 points");
  }
  return points;
}

}  // namespace

std::string with_points_read(const std::string& path, const std::string& bytes) {
  return naming_file(path, [&]() -> std::string {
    const auto whole = job::JsonReader::parse(bytes);
    const auto test = whole.is_object() ? whole.optional("test") : std::nullopt;
    const auto from = test && test->is_object() ? test->optional("points_from") : std::nullopt;
    if (!from) return bytes;
    if (const auto points = test->optional("points")) points->refuse("points or points_from, not both");
    from->allow_only({"file", "columns"});
    const auto columns = read_columns(from->required("columns"));
    const std::string csv = beside(path, from->required("file").text(1000));
    std::istringstream nothing;
    json out = whole.raw();
    out["test"].erase("points_from");
    out["test"]["points"] =
        naming_file(csv, [&] { return points_of(read_input(csv, csv_bytes_max, nothing), columns); });
    return out.dump();
  });
}

}  // namespace pumpwright

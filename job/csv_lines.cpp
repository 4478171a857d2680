#include "job/csv_lines.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"
#include "job/one_line.h"

namespace pumpwright {
namespace {

constexpr std::size_t line_bytes_max = 4096;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

std::string_view trimmed(std::string_view text) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && is_space(text.front()))
    text.remove_prefix(1);
  while (!text.empty() && is_space(text.back()))
    text.remove_suffix(1);
  return text;
}

}  // namespace

std::string csv_place(std::size_t line) {
  return fmt::format("line {}", line);
}

void refuse_csv(std::size_t line, std::string field, std::string_view value, std::string expected) {
  throw BadInput({.field = std::move(field),
                  .place = csv_place(line),
                  .value = one_line(value),
                  .expected = std::move(expected)});
}

CsvLines::CsvLines(std::string_view bytes) : rest_(bytes) {
  if (rest_.starts_with(byte_order_mark)) rest_.remove_prefix(byte_order_mark.size());
}

std::optional<std::string_view> CsvLines::next() {
  while (!rest_.empty()) {
    const auto end = std::min(rest_.find_first_of("\r\n"), rest_.size());
    const auto line = rest_.substr(0, end);
    const bool two = rest_.substr(end).starts_with("\r\n");
    rest_.remove_prefix(std::min(rest_.size(), end + (two ? 2 : 1)));
    ++number_;
    if (line.size() > line_bytes_max)
      refuse_csv(number_, "line", line.substr(0, 40),
                 fmt::format("lines of at most {} bytes", line_bytes_max));
    require_text(line);
    if (!trimmed(line).empty()) return line;
  }
  return std::nullopt;
}

void CsvLines::require_text(std::string_view line) const {
  const bool binary = line.find('\0') != std::string_view::npos;
  if (binary || first_invalid_utf8(line) != std::string_view::npos)
    refuse_csv(number_, "text", line, "a CSV file in UTF-8");
}

char csv_separator(std::string_view header) {
  for (const char c : {';', '\t', ','})
    if (header.find(c) != std::string_view::npos) return c;
  return ',';
}

std::vector<std::string> csv_cells(std::string_view line, char separator, std::size_t number) {
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
  if (quoted) refuse_csv(number, "cell", line, "a closing double quote");
  for (auto& cell : cells)
    cell = std::string(trimmed(cell));
  return cells;
}

CsvHeader csv_header(CsvLines& lines) {
  const auto first = lines.next();
  if (!first)
    refuse_csv(1, "file", "nothing", "a first line with the names of the columns, and rows below it");
  CsvHeader header;
  header.separator = csv_separator(*first);
  header.names = csv_cells(*first, header.separator, lines.number());
  if (header.names.size() > csv_columns_max)
    refuse_csv(lines.number(), "columns", fmt::format("{} columns", header.names.size()),
               fmt::format("at most {} columns", csv_columns_max));
  std::set<std::string> seen;
  for (const auto& name : header.names)
    if (!name.empty() && !seen.insert(name).second)
      refuse_csv(lines.number(), "columns", name, "a first line in which every column has a name of its own");
  return header;
}

std::size_t csv_column(const std::vector<std::string>& header, const std::string& name, std::size_t line) {
  const auto found = std::find(header.begin(), header.end(), name);
  if (found == header.end()) {
    std::string known;
    for (const auto& column : header)
      known += (known.empty() ? "\"" : ", \"") + column + "\"";
    refuse_csv(line, "column", name, "one of " + known);
  }
  return static_cast<std::size_t>(found - header.begin());
}

}  // namespace pumpwright

#include "shop/old_table.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <optional>
#include <set>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "job/csv_lines.h"
#include "job/one_line.h"

namespace pumpwright::shop {
namespace {

using job::JsonReader;

constexpr std::size_t told_max = 200;
constexpr std::size_t words_told_max = 20;
constexpr std::size_t words_max = 50;
constexpr std::size_t name_bytes_max = 200;

struct TextColumn {
  const char* key;
  std::string OldColumns::*column;
};

constexpr TextColumn text_columns[] = {{"number", &OldColumns::number},     {"pump", &OldColumns::pump},
                                       {"customer", &OldColumns::customer}, {"seal", &OldColumns::seal},
                                       {"went_out", &OldColumns::went_out}, {"reason", &OldColumns::reason},
                                       {"came_for", &OldColumns::came_for}, {"found", &OldColumns::found},
                                       {"changed", &OldColumns::changed}};

constexpr std::pair<const char*, DateOrder> date_words[] = {{"year-month-day", DateOrder::year_month_day},
                                                            {"day-month-year", DateOrder::day_month_year},
                                                            {"month-day-year", DateOrder::month_day_year}};

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

std::string column_name(const JsonReader& at) {
  std::string name = at.text(name_bytes_max);
  if (name.empty()) at.refuse("the name of a column, as the first line has it");
  return name;
}

std::vector<std::string> words_in(const JsonReader& at, const char* key) {
  std::vector<std::string> out;
  if (const auto list = at.optional(key))
    for (const auto& word : list->items(words_max))
      out.push_back(word.text(name_bytes_max));
  return out;
}

std::vector<OldColumns::Reading> readings_in(const JsonReader& list) {
  std::vector<OldColumns::Reading> out;
  for (const auto& at : list.items(checks_of_lives.size())) {
    at.allow_only({"check", "column", "unit"});
    const auto check = at.required("check");
    OldColumns::Reading reading{check.text(64), column_name(at.required("column")),
                                at.required("unit").text(16)};
    if (std::find(checks_of_lives.begin(), checks_of_lives.end(), reading.check) == checks_of_lives.end()) {
      std::string known;
      for (const auto one : checks_of_lives)
        known += (known.empty() ? "one of " : ", ") + std::string(one);
      check.refuse(known);
    }
    (void)parse_unit(reading.unit, Kind::length, "unit");
    if (std::any_of(out.begin(), out.end(), [&](const auto& other) { return other.check == reading.check; }))
      check.refuse("each check once");
    out.push_back(std::move(reading));
  }
  return out;
}

DateOrder date_order_in(const JsonReader& at) {
  const std::string word = at.word({date_words[0].first, date_words[1].first, date_words[2].first});
  return std::find_if(std::begin(date_words), std::end(date_words),
                      [&](const auto& d) { return word == d.first; })
      ->second;
}

const char* word_of(DateOrder order) {
  return std::find_if(std::begin(date_words), std::end(date_words),
                      [&](const auto& d) { return d.second == order; })
      ->first;
}

struct DateParts {
  int first = 0, second = 0, third = 0;
};

// Three whole numbers with something else between them; what follows a space or a T is the hour.
std::optional<DateParts> parts_of(std::string_view text) {
  text = text.substr(0, text.find_first_of(" T"));
  int numbers[3] = {0, 0, 0};
  for (int i = 0; i < 3; ++i) {
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), numbers[i]);
    if (error != std::errc() || numbers[i] < 0) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    if (i == 2) break;
    if (text.empty()) return std::nullopt;
    text.remove_prefix(1);
  }
  if (!text.empty()) return std::nullopt;
  return DateParts{numbers[0], numbers[1], numbers[2]};
}

const char* example_of(DateOrder order) {
  if (order == DateOrder::year_month_day) return "a day such as 2024-03-31";
  return order == DateOrder::day_month_year ? "a day such as 31.3.2024 (day, month, year)"
                                            : "a day such as 3/31/2024 (month, day, year)";
}

// Turns the cells of a line into a job.
class RowReader {
 public:
  RowReader(const OldColumns& columns, const std::vector<std::string>& header, std::string file,
            job::UtcTime now)
      : columns_(columns), file_(std::move(file)), now_(now) {
    for (std::size_t i = 0; i < header.size(); ++i)
      place_.emplace(header[i], i);
    for (const auto& reading : columns.readings)
      units_.push_back(&parse_unit(reading.unit, Kind::length, "unit"));
  }

  OldJob read(const std::vector<std::string>& cells, std::size_t line, OldTable& table) const {
    const auto cell = [&](const std::string& column) {
      return column.empty() ? std::string() : cells[place_.at(column)];
    };
    OldJob job;
    job.file = file_;
    job.line = line;
    job.serial = named(cell(columns_.serial), columns_.serial, 80, line);
    job.came_in = day(cell(columns_.came_in), columns_.came_in, line);
    if (const auto out = cell(columns_.went_out); !out.empty()) {
      job.went_out = day(out, columns_.went_out, line);
      if (*job.went_out < job.came_in)
        refuse_csv(line, columns_.went_out, out, "a day not before the one on which it came in");
    }
    const auto number = cell(columns_.number);
    job.number =
        named(number.empty() ? job.serial.substr(0, 50) + " " + job::format_utc_day(job.came_in) : number,
              columns_.number, 64, line);
    job.pump = at_most(cell(columns_.pump), columns_.pump, 80, line);
    job.customer = at_most(cell(columns_.customer), columns_.customer, 80, line);
    job.seal = at_most(cell(columns_.seal), columns_.seal, 80, line);
    job.reason = at_most(cell(columns_.reason), columns_.reason, 2048, line);
    job.found = at_most(cell(columns_.found), columns_.found, 2048, line);
    job.changed = at_most(cell(columns_.changed), columns_.changed, 2048, line);
    job.came_for = came_for(cell(columns_.came_for), table);
    for (std::size_t i = 0; i < columns_.readings.size(); ++i)
      if (auto reading = length(cell(columns_.readings[i].column), i, line))
        job.readings.emplace(columns_.readings[i].check, std::move(*reading));
    return job;
  }

 private:
  static std::string named(std::string text, const std::string& column, std::size_t bytes_max,
                           std::size_t line) {
    if (text.empty()) refuse_csv(line, column, "nothing", "a text");
    if (one_line(text) != text) refuse_csv(line, column, text, "a text without control characters");
    return at_most(std::move(text), column, bytes_max, line);
  }

  static std::string at_most(std::string text, const std::string& column, std::size_t bytes_max,
                             std::size_t line) {
    if (text.size() > bytes_max) refuse_csv(line, column, text, fmt::format("at most {} bytes", bytes_max));
    return text;
  }

  job::UtcTime day(const std::string& cell, const std::string& column, std::size_t line) const {
    const auto parts = parts_of(cell);
    if (!parts) refuse_csv(line, column, cell.empty() ? "nothing" : cell, example_of(columns_.dates));
    const auto [year, month, day] = in_order(*parts);
    const int full_year = year < 70 ? 2000 + year : year < 100 ? 1900 + year : year;
    try {
      const auto time =
          job::parse_start_of_day(fmt::format("{:04}-{:02}-{:02}", full_year, month, day), column);
      if (time > now_) refuse_csv(line, column, cell, "a day that is past");
      return time;
    } catch (const BadInput& e) {
      if (!e.what_was_wrong().place.empty()) throw;
      refuse_csv(line, column, cell, example_of(columns_.dates));
    }
  }

  DateParts in_order(const DateParts& parts) const {
    if (columns_.dates == DateOrder::year_month_day) return parts;
    if (columns_.dates == DateOrder::day_month_year) return {parts.third, parts.second, parts.first};
    return {parts.third, parts.first, parts.second};
  }

  job::CameFor came_for(const std::string& cell, OldTable& table) const {
    const auto is_in = [&](const std::vector<std::string>& words) {
      return std::any_of(words.begin(), words.end(),
                         [&](const std::string& word) { return lower(word) == lower(cell); });
    };
    if (cell.empty()) return job::CameFor::not_said;
    if (is_in(columns_.fault_words)) return job::CameFor::fault;
    if (is_in(columns_.other_words)) return job::CameFor::other;
    if (table.words_unknown.size() < words_told_max || table.words_unknown.count(cell) != 0)
      ++table.words_unknown[cell];
    return job::CameFor::not_said;
  }

  std::optional<Written> length(const std::string& cell, std::size_t which, std::size_t line) const {
    if (cell.empty()) return std::nullopt;
    const auto& column = columns_.readings[which].column;
    try {
      return parse_written(cell, Kind::length, {.field = column, .default_unit = units_[which]});
    } catch (const BadInput& error) {
      throw error.at(csv_place(line));
    }
  }

  const OldColumns& columns_;
  std::string file_;
  job::UtcTime now_;
  std::map<std::string, std::size_t> place_;
  std::vector<const Unit*> units_;
};

std::vector<std::string> wanted_columns(const OldColumns& columns) {
  std::vector<std::string> out{columns.serial, columns.came_in};
  for (const auto& [key, column] : text_columns)
    if (!(columns.*column).empty()) out.push_back(columns.*column);
  for (const auto& reading : columns.readings)
    out.push_back(reading.column);
  return out;
}

void tell(const BadInput& error, OldTable& table) {
  ++table.wrong_count;
  if (table.wrong.size() < told_max) table.wrong.push_back(error.what_was_wrong());
}

}  // namespace

OldColumns decode_old_columns(const JsonReader& json) {
  json.allow_only({"number", "serial", "pump", "customer", "seal", "came_in", "went_out", "reason",
                   "came_for", "found", "changed", "fault_words", "other_words", "dates", "readings"});
  OldColumns columns;
  columns.serial = column_name(json.required("serial"));
  columns.came_in = column_name(json.required("came_in"));
  for (const auto& [key, column] : text_columns)
    if (const auto at = json.optional(key)) columns.*column = column_name(*at);
  columns.fault_words = words_in(json, "fault_words");
  columns.other_words = words_in(json, "other_words");
  if (const auto dates = json.optional("dates")) columns.dates = date_order_in(*dates);
  if (const auto readings = json.optional("readings")) columns.readings = readings_in(*readings);
  return columns;
}

nlohmann::ordered_json encode_old_columns(const OldColumns& columns) {
  nlohmann::ordered_json json{{"serial", columns.serial}, {"came_in", columns.came_in}};
  for (const auto& [key, column] : text_columns)
    if (!(columns.*column).empty()) json[key] = columns.*column;
  if (!columns.fault_words.empty()) json["fault_words"] = columns.fault_words;
  if (!columns.other_words.empty()) json["other_words"] = columns.other_words;
  json["dates"] = word_of(columns.dates);
  for (const auto& reading : columns.readings)
    json["readings"].push_back(
        {{"check", reading.check}, {"column", reading.column}, {"unit", reading.unit}});
  return json;
}

std::vector<std::string> old_csv_header(std::string_view bytes) {
  CsvLines lines(bytes);
  return csv_header(lines).names;
}

OldTable read_old_csv(std::string_view bytes, const std::string& file, const OldColumns& columns,
                      job::UtcTime now) {
  CsvLines lines(bytes);
  const auto [separator, names] = csv_header(lines);
  OldTable table;
  table.header = names;
  const auto wanted = wanted_columns(columns);
  for (const auto& name : wanted)
    (void)csv_column(table.header, name, lines.number());
  std::copy_if(table.header.begin(), table.header.end(), std::back_inserter(table.left_alone),
               [&](const std::string& name) {
                 return !name.empty() && std::find(wanted.begin(), wanted.end(), name) == wanted.end();
               });
  const RowReader reader(columns, table.header, file, now);
  std::set<std::string> numbers;
  while (const auto line = lines.next()) {
    if (table.jobs.size() + table.wrong_count == old_rows_max)
      refuse_csv(lines.number(), "rows", fmt::format("more than {}", old_rows_max),
                 fmt::format("at most {} rows", old_rows_max));
    try {
      const auto cells = csv_cells(*line, separator, lines.number());
      if (cells.size() != table.header.size())
        refuse_csv(lines.number(), "columns", *line,
                   fmt::format("{} cells, as the first line has", table.header.size()));
      auto job = reader.read(cells, lines.number(), table);
      if (!numbers.insert(job.number).second)
        refuse_csv(lines.number(), columns.number, job.number, "each job once");
      table.jobs.push_back(std::move(job));
    } catch (const BadInput& error) {
      tell(error, table);
    }
  }
  return table;
}

}  // namespace pumpwright::shop

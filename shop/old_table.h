// The shop's old records as a spreadsheet hands them over: a CSV file, one row for each job, and which of its
// columns means what. A row that does not fit is told and left; the others are read. CSV rules:
// job/csv_lines.h.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/quantity/bad_input.h"
#include "job/json_reader.h"
#include "job/utc_time.h"
#include "shop/old_job.h"

namespace pumpwright::shop {

// Of the day, the month and the year in a date. Between them anything but digits; a year of two digits is one
// of 2000 to 2069 or 1970 to 1999.
enum class DateOrder { year_month_day, day_month_year, month_day_year };

// Names as the first line has them; empty: no such column.
struct OldColumns {
  std::string serial, came_in;  // must be there
  std::string number;           // without it: serial number and day on which it came in
  std::string pump, customer, seal, went_out, reason, came_for, found, changed;
  // Words of the column came_for, whole cells, whatever their case: for a fault, and for another reason. Any
  // other word says nothing.
  std::vector<std::string> fault_words, other_words;
  DateOrder dates = DateOrder::year_month_day;
  struct Reading {
    std::string check;   // one of `checks_of_lives`
    std::string column;  // plain numbers in `unit`, or with a unit of their own
    std::string unit;
  };
  std::vector<Reading> readings;
};

// docs/old-columns.schema.json publishes the format. Throws BadInput whose place is a JSON pointer.
OldColumns decode_old_columns(const job::JsonReader& json);
nlohmann::ordered_json encode_old_columns(const OldColumns& columns);

struct OldTable {
  std::vector<std::string> header;
  std::vector<OldJob> jobs;           // rows that fit, in their order
  std::vector<BadInput::What> wrong;  // the others, the first 200 of them
  std::size_t wrong_count = 0;
  std::vector<std::string> left_alone;               // columns nobody asked for
  std::map<std::string, std::size_t> words_unknown;  // of came_for, how often; the first 20
};

inline constexpr std::size_t old_rows_max = 100'000;
inline constexpr std::size_t old_csv_bytes_max = std::size_t{12} * 1024 * 1024;

// The names in the first line. Throws BadInput for bytes that are no such table.
std::vector<std::string> old_csv_header(std::string_view bytes);

// `file`: what it is called. `now`: later days are refused. Throws BadInput for a table without one of the
// columns or with more than `old_rows_max` rows.
OldTable read_old_csv(std::string_view bytes, const std::string& file, const OldColumns& columns,
                      job::UtcTime now);

}  // namespace pumpwright::shop

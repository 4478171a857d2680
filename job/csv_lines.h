// A CSV file cut into lines and cells, and how a mistake in one is refused; what the columns mean is for
// those who read it to say.
//
// UTF-8, with or without byte order mark; lines end in LF, CR LF or CR; empty lines are skipped. A cell may
// stand in double quotes and then hold the separator and doubled quotes.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pumpwright {

// "line 7"
std::string csv_place(std::size_t line);

// Throws BadInput at that line.
[[noreturn]] void refuse_csv(std::size_t line, std::string field, std::string_view value,
                             std::string expected);

// Hands out one line after the other. Lines longer than 4096 bytes, binary or not UTF-8 are refused.
class CsvLines {
 public:
  explicit CsvLines(std::string_view bytes);

  // The next line that is not empty; nothing at the end of the file.
  std::optional<std::string_view> next();

  // Of the line handed out last, from 1.
  std::size_t number() const { return number_; }

 private:
  void require_text(std::string_view line) const;

  std::string_view rest_;
  std::size_t number_ = 0;
};

// ';', tab or ',' as the first line has it.
char csv_separator(std::string_view header);

// The first line of a table: its separator and the names of its columns. Empty names may repeat.
struct CsvHeader {
  char separator = ',';
  std::vector<std::string> names;
};
constexpr std::size_t csv_columns_max = 200;

// Reads it as the next line. Refuses a file without one, too many columns, and a name that stands twice.
CsvHeader csv_header(CsvLines& lines);

// The cells of one line, without surrounding spaces.
std::vector<std::string> csv_cells(std::string_view line, char separator, std::size_t number);

// Which of the header's columns has that name; refused at that line with those there are.
std::size_t csv_column(const std::vector<std::string>& header, const std::string& name, std::size_t line);

}  // namespace pumpwright

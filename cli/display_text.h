// Text as a terminal shows it: how wide it is, safe single lines, and aligned columns.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace pumpwright {

// Columns that UTF-8 text takes on a terminal: one for each code point but combining marks. (No text of this
// program is set in double-width characters.)
std::size_t display_width(std::string_view text);

// Offset of the first byte that is not part of valid UTF-8, or npos.
std::size_t first_invalid_utf8(std::string_view bytes);

// `text` as one line: control characters become spaces, bytes that are no UTF-8 become "\xHH", and what
// stands after `bytes_max` bytes is cut off with "…".
std::string one_line(std::string_view text, std::size_t bytes_max = 1000);

// Breaks `text` at spaces into lines no wider than `width`; every line begins with `indent` spaces. Words
// longer than a line are kept whole. Ends with a line break, unless the text is empty.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent = 0);

enum class Align { left, right };

// Rows of cells, printed with two spaces between columns and no spaces at the end of a line.
class TextTable {
 public:
  explicit TextTable(std::vector<Align> columns);

  // Missing cells at the end are empty; more cells than columns are a programmer's error (asserted).
  void add(std::vector<std::string> cells);
  bool empty() const { return rows_.empty(); }

  // The rows one by one, without line breaks.
  std::vector<std::string> lines(std::size_t indent = 0) const;
  // Every line begins with `indent` spaces and ends with a line break.
  std::string text(std::size_t indent = 0) const;

 private:
  std::vector<Align> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace pumpwright

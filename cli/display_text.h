// Text as a terminal shows it: how wide it is, safe single lines (job/one_line.h), and aligned columns.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "job/one_line.h"

namespace pumpwright {

// Columns that UTF-8 text takes on a terminal: one for each code point but combining marks. (No text of this
// program is set in double-width characters.)
std::size_t display_width(std::string_view text);

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

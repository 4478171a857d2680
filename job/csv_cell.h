// One cell of a comma-separated table that a spreadsheet will open.
#pragma once

#include <string>

namespace pumpwright::job {

// By RFC 4180: in quotes when it holds a comma, a quote or a line break, quotes doubled. A text that a
// spreadsheet would take for a formula stands behind an apostrophe.
std::string csv_cell(const std::string& text);

}  // namespace pumpwright::job

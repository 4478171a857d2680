#include "job/csv_cell.h"

namespace pumpwright::job {

std::string csv_cell(const std::string& text) {
  std::string plain = text;
  if (!plain.empty() && (plain.front() == '=' || plain.front() == '@')) plain.insert(plain.begin(), '\'');
  if (plain.find_first_of(",\"\r\n") == std::string::npos) return plain;
  std::string quoted = "\"";
  for (const char c : plain) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace pumpwright::job

// What stands after the method in a request line: path and query, taken apart and decoded once, strictly.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace pumpwright::server {

struct Target {
  std::vector<std::string> segments;  // "/api/jobs/A%2F1" -> {"api", "jobs", "A/1"}; "/" -> {}
  std::vector<std::pair<std::string, std::string>> query;

  // "/api/jobs/A/1": for looking up and logging, never for opening a file.
  std::string path() const;
  // The first value of a name of the query; nothing when it is not there.
  std::optional<std::string> asked(std::string_view name) const;
};

inline constexpr std::size_t target_bytes_max = 4096;
inline constexpr std::size_t query_fields_max = 32;

// Nothing for a target that is too long, not absolute, has a broken escape, a control character, text that is
// no UTF-8, or a segment "." or "..".
std::optional<Target> parse_target(std::string_view target);

}  // namespace pumpwright::server

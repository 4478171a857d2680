#include "cli/json_quantity.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/command.h"

namespace pumpwright {

Written written_quantity(const job::JsonReader& json, Kind kind) {
  const auto text = json.text();
  try {
    return parse_written(text, kind, {.field = json.field()});
  } catch (const BadInput& error) {
    throw error.at(json.pointer());
  }
}

Written written_between(const job::JsonReader& json, Kind kind, double least, double most,
                        const std::string& expected) {
  auto written = written_quantity(json, kind);
  if (!(written.si >= least && written.si <= most)) json.refuse(expected);
  return written;
}

Written written_length(const job::JsonReader& json) {
  return written_between(json, Kind::length, -length_max_m, length_max_m,
                         fmt::format("a length of at most {:g} m", length_max_m));
}

std::size_t named(const job::JsonReader& json, const std::vector<std::string>& names) {
  const auto found = std::find(names.begin(), names.end(), json.text(80));
  if (found == names.end()) json.refuse(fmt::format("one of \"{}\"", fmt::join(names, "\", \"")));
  return static_cast<std::size_t>(found - names.begin());
}

std::string new_name(const job::JsonReader& json, const std::vector<std::string>& names) {
  auto name = json.text(80);
  if (name.empty()) json.refuse("a name");
  if (std::find(names.begin(), names.end(), name) != names.end()) json.refuse("a name that no other one has");
  return name;
}

}  // namespace pumpwright

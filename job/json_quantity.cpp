#include "job/json_quantity.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace pumpwright::job {
namespace {

constexpr double length_max_m = 1000;

}  // namespace

Written written_between(const JsonReader& json, Kind kind, double least, double most,
                        const std::string& expected) {
  auto written = decode_written(json, kind);
  if (!(written.si >= least && written.si <= most)) json.refuse(expected);
  return written;
}

Written written_length(const JsonReader& json) {
  return written_between(json, Kind::length, -length_max_m, length_max_m,
                         fmt::format("a length of at most {:g} m", length_max_m));
}

Length decode_length(const JsonReader& json, double least_m, double most_m) {
  return metres(written_between(json, Kind::length, least_m, most_m,
                                fmt::format("a length from {:g} m to {:g} m", least_m, most_m))
                    .si);
}

double decode_part(const JsonReader& json) {
  return placed(json.pointer(), [&] { return parse_fraction(json.text(), {.field = json.field()}); });
}

double decode_part(const JsonReader& json, double least, double most) {
  const double part = decode_part(json);
  if (!(part >= least && part <= most))
    json.refuse(fmt::format("a percentage from {:g} % to {:g} %", 100 * least, 100 * most));
  return part;
}

std::size_t named(const JsonReader& json, const std::vector<std::string>& names) {
  const auto found = std::find(names.begin(), names.end(), json.text(80));
  if (found == names.end()) json.refuse(fmt::format("one of \"{}\"", fmt::join(names, "\", \"")));
  return static_cast<std::size_t>(found - names.begin());
}

std::size_t named_or_numbered(const JsonReader& json, const std::vector<std::string>& names) {
  const auto text = json.text(80);
  const bool is_name = std::find(names.begin(), names.end(), text) != names.end();
  for (std::size_t i = 0; !is_name && i < names.size(); ++i)
    if (text == std::to_string(i + 1)) return i;
  return named(json, names);
}

std::string new_name(const JsonReader& json, const std::vector<std::string>& names) {
  auto name = json.text(80);
  if (name.empty()) json.refuse("a name");
  if (std::find(names.begin(), names.end(), name) != names.end()) json.refuse("a name that no other one has");
  return name;
}

}  // namespace pumpwright::job

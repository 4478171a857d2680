// Quantities with their unit in the JSON files that commands read: "7 thou", "0.18 mm", "2900 rpm".
#pragma once

#include <string>
#include <vector>

#include "engine/quantity/parse.h"
#include "job/json_reader.h"

namespace pumpwright {

// The text that stands here, as a quantity of that kind. Throws BadInput whose place is its JSON pointer.
Written written_quantity(const job::JsonReader& json, Kind kind);

// The same, from `least` to `most` in the kind's SI unit; `expected` says so: "a mass over 0".
Written written_between(const job::JsonReader& json, Kind kind, double least, double most,
                        const std::string& expected);

// A length of at most length_max_m either way (cli/command.h).
Written written_length(const job::JsonReader& json);

// The typed quantity of written_between.
template <TypedQuantity Q>
Q quantity_between(const job::JsonReader& json, double least, double most, const std::string& expected) {
  return written_between(json, KindOf<Q>::kind, least, most, expected).quantity().template as<Q>();
}

// The place of a name in `names`; refused with the names that would do.
std::size_t named(const job::JsonReader& json, const std::vector<std::string>& names);

// A name of 1 to 80 bytes that is not yet in `names`.
std::string new_name(const job::JsonReader& json, const std::vector<std::string>& names);

}  // namespace pumpwright

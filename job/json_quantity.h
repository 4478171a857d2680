// Quantities and names within bounds in the JSON files that tests write down: "7 thou", "0.18 mm", "2900
// rpm".
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "engine/quantity/bad_input.h"
#include "job/decode.h"

namespace pumpwright::job {

// The text that stands here as a quantity of that kind, from `least` to `most` in the kind's SI unit;
// `expected` says so: "a mass over 0". Throws BadInput whose place is its JSON pointer, as all here.
Written written_between(const JsonReader& json, Kind kind, double least, double most,
                        const std::string& expected);

// A length of at most 1 km either way.
Written written_length(const JsonReader& json);

// A length from `least` to `most` metres; a percentage as a fraction, bounded or not.
Length decode_length(const JsonReader& json, double least_m, double most_m);
double decode_part(const JsonReader& json, double least, double most);
double decode_part(const JsonReader& json);

// The typed quantity of written_between.
template <TypedQuantity Q>
Q quantity_between(const JsonReader& json, double least, double most, const std::string& expected) {
  return written_between(json, KindOf<Q>::kind, least, most, expected).quantity().template as<Q>();
}

// The place of a name in `names`; refused with the names that would do.
std::size_t named(const JsonReader& json, const std::vector<std::string>& names);

// As `named`, or by its number in their order, from "1", where no name is that number.
std::size_t named_or_numbered(const JsonReader& json, const std::vector<std::string>& names);

// A name of 1 to 80 bytes that is not yet in `names`.
std::string new_name(const JsonReader& json, const std::vector<std::string>& names);

// Pieces out of a stock, by the words they were written in: "1 thou + 2 thou"; empty for none.
template <TypedQuantity Q>
std::string as_written(const std::vector<Q>& pieces, const std::vector<Written>& stock) {
  std::string out;
  for (const Q& piece : pieces) {
    const auto of = std::find_if(stock.begin(), stock.end(),
                                 [&](const Written& written) { return written.si == piece.value(); });
    if (of != stock.end()) out += (out.empty() ? "" : " + ") + of->text;
  }
  return out;
}

// The engine's name of what is wrong becomes a place in the file: `pointer` in front of it.
template <class Work>
auto placed(const std::string& pointer, const Work& work) {
  try {
    return work();
  } catch (const BadInput& error) {
    throw error.at(pointer);
  }
}

}  // namespace pumpwright::job

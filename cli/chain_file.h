// The chain file: a dimension chain as JSON. docs/chain.schema.json publishes the format; the tests hand one
// corpus of files to both.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/assembly/chain.h"
#include "engine/quantity/parse.h"

namespace pumpwright {

constexpr int chain_file_version = 1;

struct ChainFile {
  std::string name;
  Chain chain;
  std::vector<Written> nominals;       // as written, one for each link
  std::optional<Written> lower_limit;  // as written
  std::optional<Written> upper_limit;
  double wanted_inside = 0.9973;  // part of all builds that must keep to the limits
};

// Throws BadInput whose place is a JSON pointer.
ChainFile decode_chain_file(std::string_view bytes);

}  // namespace pumpwright

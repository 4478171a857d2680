// The index as rows, inside a write. Internal to this folder.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "store/connection.h"
#include "store/index.h"

namespace pumpwright::store {

struct StreamRow {
  const std::string& name;
  std::int64_t id = 0;
};

// std::invalid_argument when the change names another stream or holds a number that is not finite.
void change_index(Connection& connection, const StreamRow& stream, const IndexChange& change);
// Removes what is held about the stream and puts the contents there.
void replace_stream_index(Connection& connection, const StreamRow& stream, const StreamIndex& contents);
void clear_index(Connection& connection);

}  // namespace pumpwright::store

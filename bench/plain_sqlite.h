// The other side of every figure of the store: plain SQLite through its C interface, with one prepared INSERT
// and one thread, that puts the same rows into the same table in transactions of given sizes, with the
// store's settings and without its triggers.
#pragma once

#include <cstddef>
#include <filesystem>
#include <span>

#include "store/event.h"

namespace pumpwright::bench {

// The settings of store/connection.cpp.
extern const char* const same_settings;

struct PlainWork {
  std::span<const store::StoredEvent> rows;   // already hashed
  std::span<const std::size_t> transactions;  // how many rows each takes; their sum is the number of rows
};

// Rows a second. Makes `file`; ends the program when SQLite does not do what it is told.
double plain_rows_per_s(const std::filesystem::path& file, const PlainWork& work);

}  // namespace pumpwright::bench

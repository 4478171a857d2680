// The other side of every figure of the store: plain SQLite through its C interface, with one prepared INSERT
// and one thread, that puts the same rows into the same table in transactions of given sizes, with the
// store's settings and without its triggers.
#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string_view>

#include "store/event.h"

struct sqlite3;
struct sqlite3_stmt;

namespace pumpwright::bench {

// The settings of store/connection.cpp.
extern const char* const same_settings;

struct PlainWork {
  std::span<const store::StoredEvent> rows;   // already hashed
  std::span<const std::size_t> transactions;  // how many rows each takes; their sum is the number of rows
};

// Rows a second. Makes `file`; ends the program when SQLite does not do what it is told.
double plain_rows_per_s(const std::filesystem::path& file, const PlainWork& work);

// The calls it is made of. Each ends the program when SQLite does not do what it is told.
sqlite3* opened(const std::filesystem::path& file);  // with the same settings
void execute(sqlite3* database, const char* sql);
sqlite3_stmt* prepared(sqlite3* database, const char* sql);
void step_once(sqlite3* database, sqlite3_stmt* statement);  // one that gives no rows
void bind_text(sqlite3_stmt* statement, int place, std::string_view text);

}  // namespace pumpwright::bench

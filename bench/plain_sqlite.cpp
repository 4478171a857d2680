#include "bench/plain_sqlite.h"

#include <chrono>
#include <cstdlib>
#include <map>
#include <string>

#include <fmt/format.h>
#include <sqlite3.h>

namespace pumpwright::bench {
namespace {

using store::StoredEvent;

void require(sqlite3* database, bool ok) {
  if (ok) return;
  fmt::print(stderr, "plain SQLite: {}\n", sqlite3_errmsg(database));
  std::exit(1);
}

void bind_blob(sqlite3_stmt* statement, int place, const void* bytes, std::size_t count) {
  sqlite3_bind_blob(statement, place, bytes, static_cast<int>(count), SQLITE_STATIC);
}

// The event table with its keys: rows are made before and only inserted.
constexpr const char* same_table =
    "CREATE TABLE stream (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE) STRICT;"
    "CREATE TABLE event (id INTEGER PRIMARY KEY, stream_id INTEGER NOT NULL REFERENCES stream (id), seq "
    "INTEGER NOT NULL,"
    " type TEXT NOT NULL, actor TEXT NOT NULL, device TEXT NOT NULL, device_seq INTEGER NOT NULL,"
    " key TEXT NOT NULL UNIQUE, accepted_at TEXT NOT NULL, payload BLOB NOT NULL, prev BLOB NOT NULL, hash "
    "BLOB NOT NULL,"
    " UNIQUE (stream_id, seq)) STRICT;";

// Number of each stream; its row is in the database.
std::map<std::string, sqlite3_int64> streams_of(sqlite3* database, std::span<const StoredEvent> rows) {
  std::map<std::string, sqlite3_int64> numbers;
  auto* insert = prepared(database, "INSERT INTO stream (id, name) VALUES (?1, ?2)");
  for (const auto& row : rows) {
    const auto number = static_cast<sqlite3_int64>(numbers.size()) + 1;
    if (!numbers.emplace(row.stream, number).second) continue;
    sqlite3_bind_int64(insert, 1, number);
    bind_text(insert, 2, row.stream);
    step_once(database, insert);
  }
  sqlite3_finalize(insert);
  return numbers;
}

void insert_row(sqlite3* database, sqlite3_stmt* insert, const StoredEvent& row, sqlite3_int64 stream) {
  sqlite3_bind_int64(insert, 1, stream);
  sqlite3_bind_int64(insert, 2, static_cast<sqlite3_int64>(row.seq));
  bind_text(insert, 3, row.type);
  bind_text(insert, 4, row.actor);
  bind_text(insert, 5, row.device);
  sqlite3_bind_int64(insert, 6, static_cast<sqlite3_int64>(row.device_seq));
  bind_text(insert, 7, row.key);
  bind_text(insert, 8, row.accepted_at);
  bind_blob(insert, 9, row.payload.data(), row.payload.size());
  bind_blob(insert, 10, row.prev.data(), row.prev.size());
  bind_blob(insert, 11, row.hash.data(), row.hash.size());
  step_once(database, insert);
}

}  // namespace

const char* const same_settings =
    "PRAGMA busy_timeout = 10000; PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;"
    "PRAGMA mmap_size = 0; PRAGMA temp_store = MEMORY; PRAGMA synchronous = FULL; PRAGMA journal_mode = WAL;"
    "PRAGMA foreign_keys = ON; PRAGMA secure_delete = ON; PRAGMA wal_autocheckpoint = 1000;"
    "PRAGMA journal_size_limit = 67108864;";

sqlite3* opened(const std::filesystem::path& file) {
  sqlite3* database = nullptr;
  require(database, sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  execute(database, same_settings);
  return database;
}

void execute(sqlite3* database, const char* sql) {
  require(database, sqlite3_exec(database, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
}

sqlite3_stmt* prepared(sqlite3* database, const char* sql) {
  sqlite3_stmt* statement = nullptr;
  require(database, sqlite3_prepare_v2(database, sql, -1, &statement, nullptr) == SQLITE_OK);
  return statement;
}

void step_once(sqlite3* database, sqlite3_stmt* statement) {
  require(database, sqlite3_step(statement) == SQLITE_DONE);
  sqlite3_reset(statement);
}

void bind_text(sqlite3_stmt* statement, int place, std::string_view text) {
  sqlite3_bind_text(statement, place, text.data(), static_cast<int>(text.size()), SQLITE_STATIC);
}

double plain_rows_per_s(const std::filesystem::path& file, const PlainWork& work) {
  sqlite3* database = opened(file);
  execute(database, same_table);
  const auto streams = streams_of(database, work.rows);
  auto* begin = prepared(database, "BEGIN IMMEDIATE");
  auto* commit = prepared(database, "COMMIT");
  auto* insert =
      prepared(database, "INSERT INTO event VALUES (NULL, ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)");
  const auto start = std::chrono::steady_clock::now();
  std::size_t next = 0;
  for (const std::size_t size : work.transactions) {
    step_once(database, begin);
    for (std::size_t i = 0; i < size; ++i, ++next)
      insert_row(database, insert, work.rows[next], streams.at(work.rows[next].stream));
    step_once(database, commit);
  }
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  for (auto* statement : {begin, commit, insert})
    sqlite3_finalize(statement);
  sqlite3_close(database);
  return static_cast<double>(next) / took.count();
}

}  // namespace pumpwright::bench

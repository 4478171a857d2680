// One SQLite connection as the store uses it: opened in one place with all settings, statements prepared
// once, every error as a StoreError. Internal to this folder. Used by one thread at a time.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>

#include <SQLiteCpp/SQLiteCpp.h>

#include "store/event.h"
#include "store/store_error.h"

struct sqlite3;

namespace pumpwright::store {

// The store's word for an extended result code together with the system's error number (0 when there is
// none).
StoreErrorCode code_of(int extended_result_code, int system_errno);

enum class Access {
  write,   // the one that writes; makes the file when it is missing
  read,    // reads beside a writer
  closed,  // reads a file nobody has open, and leaves nothing beside it
};

struct ConnectionSettings {
  std::filesystem::path file;
  Access access = Access::read;
  int busy_timeout_ms = 10'000;
  int checkpoint_pages = 1000;
};

class Connection {
 public:
  explicit Connection(const ConnectionSettings& settings);

  // Statements without rows, not kept.
  void execute(const char* sql);
  // First column of the first row.
  std::int64_t number(const char* sql);
  // A transaction is open.
  bool in_transaction();
  sqlite3* handle() { return database_.getHandle(); }
  SQLite::Database& database() { return database_; }

  // Prepared once and kept. `sql` must be a literal: it is found again by its address.
  SQLite::Statement& prepared(const char* sql);

  [[noreturn]] void fail(const SQLite::Exception& error);

 private:
  void set_pragmas(const ConnectionSettings& settings);
  void require_write_ahead_log();
  int system_errno();

  SQLite::Database database_;
  std::unordered_map<const char*, std::unique_ptr<SQLite::Statement>> statements_;
};

// One use of a prepared statement; gives it back reset, so that it holds no lock. Parameters and columns
// count from 1 and 0 as in SQLite. Bound texts and bytes must live until the statement has run.
class Query {
 public:
  Query(Connection& connection, const char* sql)
      : connection_(connection), statement_(connection.prepared(sql)) {}
  ~Query();
  Query(const Query&) = delete;
  Query& operator=(const Query&) = delete;

  Query& bind(int parameter, std::int64_t value);
  Query& bind(int parameter, double value);
  Query& bind_text(int parameter, const std::string& value);
  Query& bind_text(int parameter, std::string&& value) = delete;
  Query& bind_bytes(int parameter, std::string_view value);
  Query& bind_hash(int parameter, const Hash& hash);
  Query& bind_null(int parameter);

  bool step();  // true: a row stands
  void run();   // to the end

  std::int64_t integer(int column) const;
  double real(int column) const;
  std::string bytes(int column) const;  // text or blob
  bool is_null(int column) const;
  Hash hash(int column) const;  // StoreError corrupt when it has another length

 private:
  Connection& connection_;
  SQLite::Statement& statement_;
};

}  // namespace pumpwright::store

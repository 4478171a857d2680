#include "store/connection.h"

#include <algorithm>
#include <cerrno>
#include <optional>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include "store/schema.h"

namespace pumpwright::store {
namespace {

std::optional<StoreErrorCode> code_of_errno(int system_errno) {
  switch (system_errno) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:  // a file as large as the file system or the process's limit lets it be
      return StoreErrorCode::disk_full;
    case EROFS:
    case EACCES:
    case EPERM:
      return StoreErrorCode::read_only;
    default:
      return std::nullopt;
  }
}

// The file holds secrets: it is made for its owner alone, and SQLite gives the files beside it the same mode.
// An existing file is not touched, since closing it here would drop the locks this process has on it.
void make_file(const std::filesystem::path& file) {
  const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (descriptor >= 0) {
    ::close(descriptor);
    return;
  }
  if (errno == EEXIST) return;
  const int why = errno;
  throw StoreError(
      code_of_errno(why).value_or(StoreErrorCode::io),
      fmt::format("{} can not be made: {}", file.string(), std::generic_category().message(why)));
}

// `immutable` keeps SQLite from making the files of a write-ahead log beside a file that needs none. A log
// that is there holds transactions and must be read.
std::string name_for_closed(const std::filesystem::path& file) {
  std::error_code ignored;
  const auto log_bytes = std::filesystem::file_size(file.string() + "-wal", ignored);
  const bool has_log = !ignored && log_bytes > 0;
  std::string uri = "file:";
  for (const char c : std::filesystem::absolute(file).string()) {
    if (c == '?' || c == '#' || c == '%') {
      uri += fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    } else {
      uri += c;
    }
  }
  return has_log ? uri : uri + "?immutable=1";
}

int flags_of(Access access) {
  // NOMUTEX: a connection is used by one thread at a time, which GroupCommit and ReaderPool see to.
  if (access == Access::write) return SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_NOMUTEX;
  if (access == Access::read) return SQLite::OPEN_READONLY | SQLite::OPEN_NOMUTEX;
  return SQLite::OPEN_READONLY | SQLite::OPEN_URI | SQLite::OPEN_NOMUTEX;
}

SQLite::Database open_database(const ConnectionSettings& settings) {
  if (settings.access == Access::write) make_file(settings.file);
  const std::string name =
      settings.access == Access::closed ? name_for_closed(settings.file) : settings.file.string();
  try {
    return SQLite::Database(name, flags_of(settings.access));
  } catch (const SQLite::Exception& error) {
    throw StoreError(code_of(error.getExtendedErrorCode(), 0),
                     fmt::format("{} can not be opened: {}", settings.file.string(), error.what()));
  }
}

}  // namespace

StoreErrorCode code_of(int extended_result_code, int system_errno) {
  const int primary = extended_result_code & 0xff;
  if (primary == SQLITE_IOERR || primary == SQLITE_CANTOPEN) {
    return code_of_errno(system_errno).value_or(StoreErrorCode::io);
  }
  switch (primary) {
    case SQLITE_FULL:
      return StoreErrorCode::disk_full;
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return StoreErrorCode::read_only;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
      return StoreErrorCode::busy;
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return StoreErrorCode::corrupt;
    default:
      return StoreErrorCode::other;
  }
}

Connection::Connection(const ConnectionSettings& settings) : database_(open_database(settings)) {
  // SQLite falls back to reading when it may not write; a store that can not store must say so at once.
  if (settings.access == Access::write && sqlite3_db_readonly(handle(), "main") == 1) {
    throw StoreError(StoreErrorCode::read_only, fmt::format("{} can not be written", settings.file.string()));
  }
  set_pragmas(settings);
}

void Connection::set_pragmas(const ConnectionSettings& settings) {
  // First, since all that follows may meet a lock.
  execute(fmt::format("PRAGMA busy_timeout = {}", settings.busy_timeout_ms).c_str());
  // Nobody changes the schema by writing into sqlite_schema.
  sqlite3_db_config(handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  // A file from elsewhere must not run functions with side effects through its views and triggers.
  execute("PRAGMA trusted_schema = OFF");
  // Damaged pages are reported, not read.
  execute("PRAGMA cell_size_check = ON");
  // An I/O error comes as a result code, never as a signal.
  execute("PRAGMA mmap_size = 0");
  // Sorting never writes what is in the store to another file.
  execute("PRAGMA temp_store = MEMORY");
  if (settings.access != Access::write) return;
  // The log's mode is kept in the file, so a file that is not ours must be refused before.
  refuse_other_databases(*this, migrations());
  // Every commit is synced: what was acknowledged survives a power cut.
  execute("PRAGMA synchronous = FULL");
  // Readers and the writer do not wait for each other.
  require_write_ahead_log();
  // An event without its stream can not be stored.
  execute("PRAGMA foreign_keys = ON");
  // Erased secrets are overwritten.
  execute("PRAGMA secure_delete = ON");
  execute(fmt::format("PRAGMA wal_autocheckpoint = {}", settings.checkpoint_pages).c_str());
  // After a long read has let the log grow it is cut back to this.
  execute("PRAGMA journal_size_limit = 67108864");
}

// The mode is answered before it is lasting; only the end of the statement says whether it is. In any other
// mode a commit could be undone by a power cut that brings its removed journal back.
void Connection::require_write_ahead_log() {
  Query mode(*this, "PRAGMA journal_mode = WAL");
  const bool changed = mode.step() && mode.bytes(0) == "wal";
  mode.run();
  if (!changed) throw StoreError(StoreErrorCode::other, "this disk does not allow a write-ahead log");
}

// SQLite notes the system's error number for most statements but not for COMMIT, where the writing happens;
// then the file layer still has it.
int Connection::system_errno() {
  const int noted = sqlite3_system_errno(handle());
  if (noted != 0) return noted;
  sqlite3_vfs* files = nullptr;
  sqlite3_file_control(handle(), "main", SQLITE_FCNTL_VFS_POINTER, static_cast<void*>(&files));
  return files != nullptr && files->xGetLastError != nullptr ? files->xGetLastError(files, 0, nullptr) : 0;
}

void Connection::fail(const SQLite::Exception& error) {
  throw StoreError(code_of(error.getExtendedErrorCode(), system_errno()), error.what());
}

void Connection::execute(const char* sql) {
  try {
    database_.exec(sql);
  } catch (const SQLite::Exception& error) {
    fail(error);
  }
}

std::int64_t Connection::number(const char* sql) {
  try {
    return database_.execAndGet(sql).getInt64();
  } catch (const SQLite::Exception& error) {
    fail(error);
  }
}

bool Connection::in_transaction() {
  return sqlite3_get_autocommit(handle()) == 0;
}

SQLite::Statement& Connection::prepared(const char* sql) {
  auto& kept = statements_[sql];
  if (!kept) {
    try {
      kept = std::make_unique<SQLite::Statement>(database_, sql);
    } catch (const SQLite::Exception& error) {
      statements_.erase(sql);
      fail(error);
    }
  }
  return *kept;
}

Query::~Query() {
  statement_.tryReset();
}

Query& Query::bind(int parameter, std::int64_t value) {
  statement_.bind(parameter, value);
  return *this;
}

Query& Query::bind(int parameter, double value) {
  statement_.bind(parameter, value);
  return *this;
}

Query& Query::bind_text(int parameter, const std::string& value) {
  statement_.bindNoCopy(parameter, value);
  return *this;
}

Query& Query::bind_bytes(int parameter, std::string_view value) {
  // A null pointer would bind NULL, so an empty text gets an address.
  const char* data = value.empty() ? "" : value.data();
  statement_.bindNoCopy(parameter, static_cast<const void*>(data), static_cast<int>(value.size()));
  return *this;
}

Query& Query::bind_hash(int parameter, const Hash& hash) {
  statement_.bindNoCopy(parameter, static_cast<const void*>(hash.data()), static_cast<int>(hash.size()));
  return *this;
}

Query& Query::bind_null(int parameter) {
  statement_.bind(parameter);
  return *this;
}

bool Query::step() {
  errno = 0;  // so that an error number found afterwards is of this step
  try {
    return statement_.executeStep();
  } catch (const SQLite::Exception& error) {
    connection_.fail(error);
  }
}

void Query::run() {
  while (step()) {
  }
}

std::int64_t Query::integer(int column) const {
  return statement_.getColumn(column).getInt64();
}

double Query::real(int column) const {
  return statement_.getColumn(column).getDouble();
}

std::string Query::bytes(int column) const {
  return statement_.getColumn(column).getString();
}

bool Query::is_null(int column) const {
  return statement_.isColumnNull(column);
}

Hash Query::hash(int column) const {
  const std::string bytes = this->bytes(column);
  Hash hash{};
  if (bytes.size() != hash.size())
    throw StoreError(StoreErrorCode::corrupt, "a stored hash has another length");
  std::copy(bytes.begin(), bytes.end(), hash.begin());
  return hash;
}

}  // namespace pumpwright::store

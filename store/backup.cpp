#include "store/backup.h"

#include <array>
#include <system_error>

#include <SQLiteCpp/Backup.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include "store/file_copy.h"
#include "store/schema.h"
#include "store/verify.h"

namespace pumpwright::store {
namespace {

// A file that is still being made; removed with what SQLite may have left beside it unless it got its name.
class UnfinishedFile {
 public:
  UnfinishedFile(const std::filesystem::path& to, const char* ending) : path_(to.string() + ending) {
    remove();
  }
  ~UnfinishedFile() { remove(); }
  UnfinishedFile(const UnfinishedFile&) = delete;
  UnfinishedFile& operator=(const UnfinishedFile&) = delete;

  const std::filesystem::path& path() const { return path_; }

 private:
  void remove() const {
    for (const char* beside : {"", "-journal", "-wal", "-shm"}) {
      std::error_code ignored;
      std::filesystem::remove(path_.string() + beside, ignored);
    }
  }

  std::filesystem::path path_;
};

void require_absent(const std::filesystem::path& file) {
  if (!std::filesystem::exists(file)) return;
  throw StoreError(StoreErrorCode::exists,
                   fmt::format("{} is there already and is not overwritten", file.string()));
}

// A log left beside the name would be played into the file that gets it.
void require_no_log(const std::filesystem::path& file, const char* why) {
  for (const char* beside : {"-wal", "-journal"}) {
    const std::filesystem::path log = file.string() + beside;
    if (file_bytes(log) > 0)
      throw StoreError(StoreErrorCode::exists, fmt::format("{} is there: {}", log.string(), why));
  }
}

// One step takes the whole file as of one moment; in the write-ahead log's mode nobody waits for it.
void copy_pages(Connection& source, const std::filesystem::path& to) {
  SQLite::Database target(to.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_NOMUTEX);
  try {
    {
      SQLite::Backup backup(target, source.database());
      if (backup.executeStep(-1) != SQLITE_DONE) {
        throw StoreError(StoreErrorCode::busy, "the store could not be copied: another process holds it");
      }
    }
    // A backup is one file: without the write-ahead log's mode nothing is made beside it.
    target.exec("PRAGMA journal_mode = DELETE");
  } catch (const SQLite::Exception& error) {
    throw StoreError(code_of(error.getExtendedErrorCode(), sqlite3_system_errno(target.getHandle())),
                     error.what());
  }
}

void require_sound(const StoreReport& report, const std::filesystem::path& file) {
  if (report.ok()) return;
  throw StoreError(StoreErrorCode::corrupt,
                   fmt::format("{} does not verify: {}", file.string(), report.problems.front()));
}

}  // namespace

BackupReport back_up(Connection& source, const std::filesystem::path& to) {
  require_absent(to);
  const UnfinishedFile partial(to, ".partial");
  // Made empty and private first: SQLite would let others read it.
  copy_file_synced({"/dev/null", partial.path()});
  copy_pages(source, partial.path());
  BackupReport report;
  report.contents = verify_store_file(partial.path());
  require_sound(report.contents, to);
  report.hash = file_hash(partial.path());
  report.bytes = file_bytes(partial.path());
  put_in_place({partial.path(), to});
  return report;
}

StoreReport verify_store_file(const std::filesystem::path& file) {
  Connection connection({file, Access::closed});
  require_current_schema(connection);
  return verify_all(connection);
}

BackupReport restore_backup(const std::filesystem::path& backup, const std::filesystem::path& to,
                            const std::optional<Hash>& expected_hash) {
  if (file_bytes(to) > 0) require_absent(to);
  require_no_log(to, "what is there belongs to another store");
  require_no_log(backup, "this store is in use; make a backup of it first");
  const UnfinishedFile partial(to, ".partial");
  BackupReport report;
  report.hash = copy_file_synced({backup, partial.path()});
  report.bytes = file_bytes(partial.path());
  if (expected_hash && report.hash != *expected_hash) {
    throw StoreError(StoreErrorCode::corrupt,
                     fmt::format("{} has another hash than the one given", backup.string()));
  }
  report.contents = verify_store_file(partial.path());
  require_sound(report.contents, backup);
  if (std::filesystem::exists(to)) std::filesystem::remove(to);  // empty, as looked at above
  put_in_place({partial.path(), to});
  return report;
}

}  // namespace pumpwright::store

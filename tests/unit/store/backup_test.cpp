#include <atomic>
#include <fstream>
#include <sstream>
#include <thread>

#include <SQLiteCpp/SQLiteCpp.h>

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

std::optional<StoreErrorCode> restore_code(const std::filesystem::path& backup,
                                           const std::filesystem::path& to,
                                           const std::optional<Hash>& hash = std::nullopt) {
  try {
    restore_backup(backup, to, hash);
  } catch (const StoreError& error) {
    return error.code();
  }
  return std::nullopt;
}

TEST(Backup, IsOneFileThatRestoresToTheSameStore) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a"), event("b")}));
  const auto hash = scratch->attachments().put({"image/png", "photo"});
  scratch->secrets().put("password", {"jm", "x", {}});
  const auto backup = scratch.directory / "backup.db";
  const auto report = scratch->backup(backup);
  EXPECT_TRUE(report.contents.ok());
  EXPECT_EQ(report.contents.events, 2U);
  EXPECT_EQ(report.bytes, std::filesystem::file_size(backup));
  EXPECT_EQ(report.hash, file_hash(backup));
  for (const char* beside : {"-wal", "-shm", "-journal", ".partial"}) {
    EXPECT_FALSE(std::filesystem::exists(backup.string() + beside)) << beside;
  }
  const auto place = scratch.directory / "restored.db";
  EXPECT_EQ(restore_backup(backup, place, report.hash).hash, report.hash);
  const auto restored = Store::open(place);
  EXPECT_EQ(restored->events().read("job/1"), scratch->events().read("job/1"));
  EXPECT_TRUE(restored->attachments().has(hash));
  EXPECT_TRUE(restored->secrets().get("password", "jm").has_value());
  EXPECT_EQ(must_append(*restored, append_of("job/1", {event("c")})).head.seq, 3U);
}

TEST(Backup, IsForItsOwnerAlone) {
  ScratchStore scratch;
  const auto backup = scratch.directory / "backup.db";
  scratch->backup(backup);
  using std::filesystem::perms;
  EXPECT_EQ(std::filesystem::status(backup).permissions(), perms::owner_read | perms::owner_write);
}

TEST(Backup, DoesNotOverwrite) {
  ScratchStore scratch;
  const auto backup = scratch.directory / "backup.db";
  std::ofstream(backup) << "mine";
  try {
    scratch->backup(backup);
    FAIL() << "overwritten";
  } catch (const StoreError& error) {
    EXPECT_EQ(error.code(), StoreErrorCode::exists);
  }
  EXPECT_EQ(std::filesystem::file_size(backup), 4U);
}

TEST(Backup, TakenWhileOthersWriteHoldsEverythingAcknowledgedBefore) {
  ScratchStore scratch;
  std::atomic<bool> stop{false};
  std::atomic<int> acknowledged{0};
  std::thread writing([&] {
    for (int i = 0; !stop; ++i) {
      must_append(*scratch.store,
                  append_of("job/" + std::to_string(i % 3), {event("k" + std::to_string(i))}));
      acknowledged = i + 1;
    }
  });
  while (acknowledged < 20)
    std::this_thread::yield();
  for (int round = 0; round < 3; ++round) {
    const int before = acknowledged;
    const auto backup = scratch.directory / ("backup-" + std::to_string(round));
    const auto report = scratch->backup(backup);
    EXPECT_TRUE(report.contents.ok());
    EXPECT_GE(report.contents.events, static_cast<std::uint64_t>(before));
    EXPECT_EQ(verify_store_file(backup).events, report.contents.events);
  }
  stop = true;
  writing.join();
}

TEST(Backup, OfAStoreThatDoesNotVerifyIsNotKept) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a")}));
  {
    SQLite::Database database(scratch.file.string(), SQLite::OPEN_READWRITE, 1000);
    database.exec("DROP TRIGGER event_stays; UPDATE event SET actor = 'rk'");
  }
  const auto backup = scratch.directory / "backup.db";
  EXPECT_THROW(scratch->backup(backup), StoreError);
  EXPECT_FALSE(std::filesystem::exists(backup));
  EXPECT_FALSE(std::filesystem::exists(backup.string() + ".partial"));
}

TEST(Restore, RefusesToOverwriteAStore) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a")}));
  const auto backup = scratch.directory / "backup.db";
  scratch->backup(backup);
  EXPECT_EQ(restore_code(backup, scratch.file), StoreErrorCode::exists);
  scratch.store.reset();
  EXPECT_EQ(restore_code(backup, scratch.file), StoreErrorCode::exists);
  const auto empty = scratch.directory / "empty.db";
  std::ofstream(empty).close();
  EXPECT_FALSE(restore_code(backup, empty).has_value());
}

TEST(Restore, RefusesAPlaceWhereTheLogOfAnotherStoreLies) {
  ScratchStore scratch;
  const auto backup = scratch.directory / "backup.db";
  scratch->backup(backup);
  const auto place = scratch.directory / "new.db";
  std::ofstream(place.string() + "-wal") << "left over";
  EXPECT_EQ(restore_code(backup, place), StoreErrorCode::exists);
}

TEST(Restore, RefusesAStoreInUseAsABackup) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a")}));
  EXPECT_EQ(restore_code(scratch.file, scratch.directory / "new.db"), StoreErrorCode::exists);
}

TEST(Restore, RefusesABackupWithAnotherHashOrDamage) {
  ScratchStore scratch;
  for (int i = 0; i < 30; ++i) {
    must_append(*scratch.store, append_of("job/1", {event("k" + std::to_string(i), std::string(2000, 'x'))}));
  }
  const auto backup = scratch.directory / "backup.db";
  const auto report = scratch->backup(backup);
  {
    std::fstream file(backup, std::ios::in | std::ios::out | std::ios::binary);
    std::ostringstream contents;
    contents << file.rdbuf();
    const std::string bytes = contents.str();
    const auto place = bytes.rfind(std::string(1000, 'x'));
    ASSERT_NE(place, std::string::npos);
    file.seekp(static_cast<std::streamoff>(place + 500));
    file << 'y';
  }
  const auto place = scratch.directory / "new.db";
  EXPECT_EQ(restore_code(backup, place, report.hash), StoreErrorCode::corrupt);
  EXPECT_EQ(restore_code(backup, place), StoreErrorCode::corrupt) << "one changed letter breaks the chain";
  EXPECT_FALSE(std::filesystem::exists(place));
  EXPECT_FALSE(std::filesystem::exists(place.string() + ".partial"));
}

TEST(Restore, RefusesWhatIsNoBackup) {
  ScratchDirectory directory;
  EXPECT_EQ(restore_code(directory / "missing.db", directory / "new.db"), StoreErrorCode::io);
  std::ofstream(directory / "text") << std::string(5000, 'x');
  EXPECT_EQ(restore_code(directory / "text", directory / "new.db"), StoreErrorCode::corrupt);
  std::ofstream(directory / "nothing").close();
  EXPECT_EQ(restore_code(directory / "nothing", directory / "new.db"), StoreErrorCode::corrupt);
}

}  // namespace
}  // namespace pumpwright::store

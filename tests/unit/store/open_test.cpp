#include <cerrno>
#include <fstream>

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include "store/schema.h"
#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

template <typename Function>
std::optional<StoreErrorCode> code_thrown_by(Function function) {
  try {
    function();
  } catch (const StoreError& error) {
    return error.code();
  }
  return std::nullopt;
}

TEST(Open, MakesAFileForItsOwnerAlone) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a")}));
  using std::filesystem::perms;
  for (const char* beside : {"", "-wal", "-shm"}) {
    EXPECT_EQ(std::filesystem::status(scratch.file.string() + beside).permissions(),
              perms::owner_read | perms::owner_write)
        << beside;
  }
}

TEST(Open, SetsWhatDurabilityNeeds) {
  ScratchDirectory directory;
  Connection connection({directory / "shop.db", Access::write});
  EXPECT_EQ(connection.number("PRAGMA synchronous"), 2);  // FULL
  EXPECT_EQ(connection.database().execAndGet("PRAGMA journal_mode").getString(), "wal");
  EXPECT_EQ(connection.number("PRAGMA foreign_keys"), 1);
  EXPECT_EQ(connection.number("PRAGMA trusted_schema"), 0);
  EXPECT_EQ(connection.number("PRAGMA cell_size_check"), 1);
  EXPECT_EQ(connection.number("PRAGMA busy_timeout"), 10'000);
  EXPECT_EQ(connection.number("PRAGMA secure_delete"), 1);
}

TEST(Open, RefusesADatabaseOfANewerProgramAndLeavesItAlone) {
  ScratchStore scratch;
  scratch.store.reset();
  const int newer = migrations().back().version + 1;
  {
    SQLite::Database database(scratch.file.string(), SQLite::OPEN_READWRITE);
    database.exec("PRAGMA user_version = " + std::to_string(newer));
  }
  try {
    scratch.open();
    FAIL() << "opened";
  } catch (const StoreError& error) {
    EXPECT_EQ(error.code(), StoreErrorCode::newer_database);
    EXPECT_NE(std::string(error.what()).find("newer version"), std::string::npos) << error.what();
  }
  EXPECT_EQ(code_thrown_by([&] { verify_store_file(scratch.file); }), StoreErrorCode::newer_database);
}

TEST(Open, RefusesADatabaseOfSomethingElseAndLeavesItAlone) {
  ScratchDirectory directory;
  const auto file = directory / "other.db";
  {
    SQLite::Database database(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    database.exec("CREATE TABLE t (x)");
  }
  EXPECT_EQ(code_thrown_by([&] { Store::open(file); }), StoreErrorCode::corrupt);
  SQLite::Database database(file.string());
  EXPECT_EQ(database.execAndGet("PRAGMA journal_mode").getString(), "delete");
  EXPECT_EQ(database.execAndGet("SELECT count(*) FROM sqlite_schema").getInt(), 1);
}

TEST(Open, RefusesAFileThatIsNoDatabase) {
  ScratchDirectory directory;
  const auto file = directory / "text.db";
  std::ofstream(file) << std::string(5000, 'x');
  EXPECT_EQ(code_thrown_by([&] { Store::open(file); }), StoreErrorCode::corrupt);
}

TEST(Open, RefusesAPlaceThatIsNotThere) {
  ScratchDirectory directory;
  EXPECT_EQ(code_thrown_by([&] { Store::open(directory / "missing/shop.db"); }), StoreErrorCode::io);
}

TEST(Open, LetsTwoProgramsWorkOnOneFile) {
  ScratchStore scratch;
  auto second = scratch.open();
  must_append(*scratch.store, append_of("job/1", {event("a")}));
  EXPECT_EQ(must_append(*second, append_of("job/1", {event("b")})).head.seq, 2U);
  EXPECT_EQ(must_append(*scratch.store, append_of("job/1", {event("c")})).head.seq, 3U);
  EXPECT_TRUE(second->verify().ok());
}

TEST(Open, SaysBusyWhenAnotherProgramHoldsTheStoreTooLong) {
  ScratchStore scratch;
  scratch.store.reset();
  StoreOptions options;
  options.busy_timeout_ms = 20;
  auto store = Store::open(scratch.file, options);
  SQLite::Database holder(scratch.file.string(), SQLite::OPEN_READWRITE);
  holder.exec("BEGIN IMMEDIATE");
  EXPECT_EQ(code_thrown_by([&] { store->events().append(append_of("job/1", {event("a")})); }),
            StoreErrorCode::busy);
  EXPECT_TRUE(store->events().read("job/1").empty()) << "reading goes on";
  holder.exec("COMMIT");
  must_append(*store, append_of("job/1", {event("a")}));
}

TEST(Migrate, RunsTheMissingStepsInOrder) {
  ScratchDirectory directory;
  const std::array<Migration, 3> steps{Migration{1, "CREATE TABLE one (x)"},
                                       Migration{2, "ALTER TABLE one ADD y"},
                                       Migration{3, "INSERT INTO one (x, y) VALUES (1, 2)"}};
  // Opened for reading and writing without the store's own settings, which would look for the store's schema.
  Connection connection({directory / "shop.db", Access::write});
  migrate(connection, std::span(steps).first(1));
  EXPECT_EQ(connection.number("PRAGMA user_version"), 1);
  migrate(connection, steps);
  EXPECT_EQ(connection.number("PRAGMA user_version"), 3);
  EXPECT_EQ(connection.number("SELECT y FROM one"), 2);
  migrate(connection, steps);
  EXPECT_EQ(connection.number("SELECT count(*) FROM one"), 1) << "a step runs once";
  EXPECT_EQ(code_thrown_by([&] { migrate(connection, std::span(steps).first(2)); }),
            StoreErrorCode::newer_database);
}

TEST(Migrate, ThatFailsLeavesTheOldSchema) {
  ScratchDirectory directory;
  const std::array<Migration, 2> steps{Migration{1, "CREATE TABLE one (x)"},
                                       Migration{2, "CREATE TABLE two (x); CREATE TABLE one (x)"}};
  Connection connection({directory / "shop.db", Access::write});
  migrate(connection, std::span(steps).first(1));
  EXPECT_EQ(code_thrown_by([&] { migrate(connection, steps); }), StoreErrorCode::other);
  EXPECT_EQ(connection.number("PRAGMA user_version"), 1);
  EXPECT_EQ(connection.number("SELECT count(*) FROM sqlite_schema"), 1);
}

TEST(Migrate, NumbersTheStepsFromOneWithoutGaps) {
  int expected = 1;
  for (const Migration& step : migrations())
    EXPECT_EQ(step.version, expected++);
  EXPECT_GT(expected, 1);
}

TEST(StoreErrors, ComeFromCodesNotFromText) {
  EXPECT_EQ(code_of(SQLITE_FULL, 0), StoreErrorCode::disk_full);
  EXPECT_EQ(code_of(SQLITE_IOERR_WRITE, ENOSPC), StoreErrorCode::disk_full);
  EXPECT_EQ(code_of(SQLITE_IOERR_SHMSIZE, ENOSPC), StoreErrorCode::disk_full);
  EXPECT_EQ(code_of(SQLITE_IOERR_WRITE, EDQUOT), StoreErrorCode::disk_full);
  EXPECT_EQ(code_of(SQLITE_IOERR_WRITE, EFBIG), StoreErrorCode::disk_full);
  EXPECT_EQ(code_of(SQLITE_IOERR_WRITE, EROFS), StoreErrorCode::read_only);
  EXPECT_EQ(code_of(SQLITE_IOERR_WRITE, EIO), StoreErrorCode::io);
  EXPECT_EQ(code_of(SQLITE_IOERR_FSYNC, 0), StoreErrorCode::io);
  EXPECT_EQ(code_of(SQLITE_READONLY_DBMOVED, 0), StoreErrorCode::read_only);
  EXPECT_EQ(code_of(SQLITE_READONLY_DIRECTORY, 0), StoreErrorCode::read_only);
  EXPECT_EQ(code_of(SQLITE_CANTOPEN_ISDIR, 0), StoreErrorCode::io);
  EXPECT_EQ(code_of(SQLITE_CANTOPEN, EACCES), StoreErrorCode::read_only);
  EXPECT_EQ(code_of(SQLITE_BUSY_SNAPSHOT, 0), StoreErrorCode::busy);
  EXPECT_EQ(code_of(SQLITE_LOCKED_SHAREDCACHE, 0), StoreErrorCode::busy);
  EXPECT_EQ(code_of(SQLITE_CORRUPT_INDEX, 0), StoreErrorCode::corrupt);
  EXPECT_EQ(code_of(SQLITE_NOTADB, 0), StoreErrorCode::corrupt);
  EXPECT_EQ(code_of(SQLITE_CONSTRAINT_TRIGGER, ENOSPC), StoreErrorCode::other);
}

}  // namespace
}  // namespace pumpwright::store

// What SQLite itself refuses, whoever writes.
#include <SQLiteCpp/SQLiteCpp.h>

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

class AppendOnly : public testing::TestWithParam<const char*> {};

TEST_P(AppendOnly, IsKeptInsideTheDatabase) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a"), event("b")}));
  scratch->attachments().put({"image/png", "photo"});
  const auto before = scratch->events().read("job/1");
  {
    SQLite::Database database(scratch.file.string(), SQLite::OPEN_READWRITE, 1000);
    try {
      database.exec(GetParam());
      ADD_FAILURE() << "went through";
    } catch (const SQLite::Exception& error) {
      EXPECT_EQ(error.getErrorCode(), 19) << error.what();  // SQLITE_CONSTRAINT
    }
  }
  EXPECT_EQ(scratch->events().read("job/1"), before);
  EXPECT_TRUE(scratch->verify().ok());
}

INSTANTIATE_TEST_SUITE_P(
    Statements, AppendOnly,
    testing::Values("UPDATE event SET payload = '{}'", "UPDATE event SET seq = 9 WHERE seq = 2",
                    "DELETE FROM event", "DELETE FROM event WHERE seq = 2",
                    "UPDATE stream SET name = 'job/2'", "DELETE FROM stream",
                    "UPDATE attachment SET media_type = 'x'", "DELETE FROM attachment",
                    // REPLACE removes the row that is in the way: by row id, by place, by key.
                    "INSERT OR REPLACE INTO event SELECT id, stream_id, seq, type, actor, device, "
                    "device_seq, key, accepted_at,"
                    " X'00', prev, hash FROM event WHERE seq = 1",
                    "INSERT OR REPLACE INTO event SELECT NULL, stream_id, seq, type, actor, device, "
                    "device_seq, 'new', accepted_at,"
                    " payload, prev, hash FROM event WHERE seq = 2",
                    "INSERT OR REPLACE INTO event SELECT NULL, stream_id, 3, type, actor, device, "
                    "device_seq, key, accepted_at,"
                    " X'00', prev, hash FROM event WHERE seq = 1",
                    "INSERT OR REPLACE INTO event SELECT 1, stream_id, 3, type, actor, device, device_seq, "
                    "'new', accepted_at,"
                    " X'00', prev, hash FROM event WHERE seq = 1",
                    "INSERT OR REPLACE INTO stream (id, name) VALUES (1, 'job/2')",
                    "INSERT OR REPLACE INTO stream (id, name) VALUES (9, 'job/1')",
                    "INSERT OR REPLACE INTO attachment SELECT id, hash, media_type, X'00' FROM attachment",
                    // A gap.
                    "INSERT INTO event SELECT NULL, stream_id, 4, type, actor, device, device_seq, 'new', "
                    "accepted_at, payload,"
                    " prev, hash FROM event WHERE seq = 1"));

}  // namespace
}  // namespace pumpwright::store

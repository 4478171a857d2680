#include <fstream>

#include <SQLiteCpp/SQLiteCpp.h>

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

void tamper(const ScratchStore& scratch, const std::string& sql) {
  SQLite::Database database(scratch.file.string(), SQLite::OPEN_READWRITE, 1000);
  database.exec(
      "DROP TRIGGER event_stays; DROP TRIGGER event_remains; DROP TRIGGER event_follows;"
      "DROP TRIGGER stream_follows");
  database.exec(sql);
}

void fill(Store& store) {
  must_append(store, append_of("job/1", {event("a"), event("b"), event("c")}));
  must_append(store, append_of("shop", {event("d")}));
  store.attachments().put({"image/png", "photo"});
}

TEST(Verify, CountsWhatASoundStoreHolds) {
  ScratchStore scratch;
  fill(*scratch.store);
  const auto report = scratch->verify();
  EXPECT_TRUE(report.ok());
  EXPECT_EQ(report.streams, 2U);
  EXPECT_EQ(report.events, 4U);
  EXPECT_EQ(report.attachments, 1U);
  EXPECT_FALSE(scratch->events().verify_stream("job/1").broken.has_value());
  EXPECT_EQ(scratch->events().verify_stream("job/1").head, scratch->events().head("job/1"));
}

TEST(Verify, NamesTheEventThatWasAltered) {
  ScratchStore scratch;
  fill(*scratch.store);
  tamper(scratch, "UPDATE event SET payload = X'7b7d' WHERE key = 'b'");
  const auto verdict = scratch->events().verify_stream("job/1");
  ASSERT_TRUE(verdict.broken.has_value());
  EXPECT_EQ(*verdict.broken, (ChainBreak{ChainBreak::What::hash_differs, 2, "b"}));
  EXPECT_EQ(verdict.head.seq, 1U);
  const auto report = scratch->verify();
  ASSERT_EQ(report.problems.size(), 1U);
  EXPECT_EQ(report.problems[0], "stream job/1: event 2 (key b) is not what was accepted");
  EXPECT_EQ(report.events, 4U);
}

TEST(Verify, SeesAnEventThatWasTakenOut) {
  ScratchStore scratch;
  fill(*scratch.store);
  tamper(scratch, "DELETE FROM event WHERE key = 'b'");
  EXPECT_EQ(scratch->events().verify_stream("job/1").broken, (ChainBreak{ChainBreak::What::seq_gap, 2, "c"}));
  EXPECT_FALSE(scratch->verify().ok());
}

TEST(Verify, SeesAStreamWhoseEventsAreAllGone) {
  ScratchStore scratch;
  fill(*scratch.store);
  tamper(scratch, "DELETE FROM event WHERE key = 'd'");
  EXPECT_EQ(scratch->verify().problems, (std::vector<std::string>{"stream shop has no event"}));
}

TEST(Verify, SeesARowThatRefersToNothing) {
  ScratchStore scratch;
  fill(*scratch.store);
  tamper(scratch, "PRAGMA foreign_keys = OFF; INSERT INTO index_entry VALUES (77, '', X'', '', 0)");
  EXPECT_EQ(scratch->verify().problems,
            (std::vector<std::string>{"structure: a row of index_entry refers to nothing"}));
}

TEST(Verify, ReportsADamagedPageAsAProblem) {
  ScratchStore scratch;
  for (int i = 0; i < 40; ++i) {
    must_append(*scratch.store, append_of("job/1", {event("k" + std::to_string(i), std::string(3000, 'x'))}));
  }
  scratch.store.reset();
  {
    std::fstream file(scratch.file, std::ios::in | std::ios::out | std::ios::binary);
    file.seekp(-3 * 4096, std::ios::end);
    file << std::string(4096, '\x77');
  }
  EXPECT_FALSE(verify_store_file(scratch.file).ok());
}

TEST(Verify, LeavesNothingBesideAFileNobodyHasOpen) {
  ScratchStore scratch;
  fill(*scratch.store);
  scratch.store.reset();
  EXPECT_TRUE(verify_store_file(scratch.file).ok());
  EXPECT_FALSE(std::filesystem::exists(scratch.file.string() + "-wal"));
  EXPECT_FALSE(std::filesystem::exists(scratch.file.string() + "-shm"));
}

}  // namespace
}  // namespace pumpwright::store

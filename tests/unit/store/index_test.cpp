#include "store/index.h"

#include <limits>

#include <SQLiteCpp/SQLiteCpp.h>

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

IndexEntry entry(const std::string& stream, const std::string& search, bool open = true) {
  return {stream, stream, R"({"number": ")" + stream + "\"}", search, open};
}

IndexValue value(const std::string& stream, const std::string& ref, double number, const std::string& at) {
  return {stream, "shaft-runout", at, ref, number, "{}"};
}

void append_with(Store& store, const std::string& stream, const std::string& key, const IndexChange& change) {
  Append append = append_of(stream, {event(key)});
  append.index_change = [&](std::span<const StoredEvent>) { return change; };
  must_append(store, append);
}

std::vector<std::string> found(Store& store, const std::string& text, std::size_t count_max = 10) {
  std::vector<std::string> streams;
  for (const auto& one : store.index().search(text, count_max))
    streams.push_back(one.stream);
  return streams;
}

struct Changed {
  std::vector<std::string> streams;
  std::int64_t position = 0;
};

Changed changed_since(Store& store, std::int64_t position) {
  Changed out;
  out.position = store.index().for_each_changed(
      position, [&](const IndexEntry& entry) { out.streams.push_back(entry.stream); });
  return out;
}

// The search table agrees with the texts it was made from.
void expect_sound_search(const ScratchStore& scratch) {
  SQLite::Database database(scratch.file.string(), SQLite::OPEN_READWRITE);
  EXPECT_NO_THROW(
      database.exec("INSERT INTO index_search (index_search, rank) VALUES ('integrity-check', 1)"));
}

TEST(Index, GivesEntriesThatChangedSinceInTheOrderInWhichTheirStreamsBegan) {
  ScratchStore scratch;
  EXPECT_TRUE(changed_since(*scratch.store, 0).streams.empty());
  EXPECT_FALSE(scratch->index().first_entry());
  for (const auto* stream : {"job/Z", "job/A", "job/M"}) {
    IndexChange change;
    change.entry = entry(stream, "pump", std::string(stream) != "job/A");
    append_with(*scratch.store, stream, stream, change);
  }
  EXPECT_EQ(scratch->index().first_entry()->stream, "job/Z");
  const Changed all = changed_since(*scratch.store, 0);
  EXPECT_EQ(all.streams, (std::vector<std::string>{"job/Z", "job/A", "job/M"}));

  append_with(*scratch.store, "job/M", "m2", {});
  append_with(*scratch.store, "job/Z", "z2", {});
  append_with(*scratch.store, "job/Z", "z3", {});
  const Changed later = changed_since(*scratch.store, all.position);
  EXPECT_EQ(later.streams, (std::vector<std::string>{"job/Z", "job/M"})) << "each once";
  EXPECT_TRUE(changed_since(*scratch.store, later.position).streams.empty());
}

TEST(Index, ChangesTogetherWithTheAppend) {
  ScratchStore scratch;
  Append append = append_of("job/1", {event("a"), event("b")});
  append.index_change = [](std::span<const StoredEvent> appended) {
    IndexEntry made = entry("job/1", "greenhouse");
    made.fields = appended.back().accepted_at + " " + std::to_string(appended.back().seq);
    return IndexChange{made, {}, {value("job/1", "r1", 3.5, "2026-11-25")}};
  };
  must_append(*scratch.store, append);
  ASSERT_TRUE(scratch->index().entry("job/1").has_value());
  EXPECT_EQ(scratch->index().entry("job/1")->fields, "2026-11-25T14:02:00.250Z 2");
  EXPECT_EQ(scratch->index().series("shaft-runout", 10).size(), 1U);
  EXPECT_FALSE(scratch->index().entry("job/2").has_value());
}

TEST(Index, IsNotAskedForARepeatedAppend) {
  ScratchStore scratch;
  int asked = 0;
  Append append = append_of("job/1", {event("a")});
  append.index_change = [&](std::span<const StoredEvent>) {
    ++asked;
    return IndexChange{};
  };
  must_append(*scratch.store, append);
  must_append(*scratch.store, append);
  EXPECT_EQ(asked, 1);
}

TEST(Index, ThatCanNotBeMadeUndoesTheAppend) {
  ScratchStore scratch;
  const auto refused_with = [&](const IndexChange& change) {
    Append append = append_of("job/1", {event("a")});
    append.index_change = [&](std::span<const StoredEvent>) { return change; };
    EXPECT_THROW(scratch->events().append(append), std::invalid_argument);
  };
  refused_with({entry("job/2", "other"), {}, {}});
  refused_with({{}, {}, {value("job/1", "r", std::numeric_limits<double>::quiet_NaN(), "t")}});
  EXPECT_TRUE(scratch->events().streams().empty());
  EXPECT_EQ(scratch->index().dump(), "");
}

TEST(Index, ListsOpenEntriesInTheirOrder) {
  ScratchStore scratch;
  IndexEntry last = entry("job/1", "a");
  last.sort_key = "z";
  append_with(*scratch.store, "job/1", "k1", {last, {}, {}});
  append_with(*scratch.store, "job/2", "k2", {entry("job/2", "b"), {}, {}});
  append_with(*scratch.store, "job/3", "k3", {entry("job/3", "c", false), {}, {}});
  append_with(*scratch.store, "job/4", "k4", {entry("job/4", "d"), {}, {}});
  append_with(*scratch.store, "job/4", "k5", {entry("job/4", "d", false), {}, {}});
  const auto open = scratch->index().open_entries();
  ASSERT_EQ(open.size(), 2U);
  EXPECT_EQ(open[0].stream, "job/2");
  EXPECT_EQ(open[1], last);
}

TEST(Index, FindsByTheBeginningsOfWords) {
  ScratchStore scratch;
  append_with(*scratch.store, "job/1", "k1", {entry("job/1", "J-1042 Invernadero Peñón HC-40"), {}, {}});
  append_with(*scratch.store, "job/2", "k2", {entry("job/2", "J-1043 Aquarium SW-65", false), {}, {}});
  append_with(*scratch.store, "job/3", "k3", {entry("job/3", "J-2001 Orchard wash"), {}, {}});
  EXPECT_EQ(found(*scratch.store, "j-104"), (std::vector<std::string>{"job/2", "job/1"}));
  EXPECT_EQ(found(*scratch.store, "J"), (std::vector<std::string>{"job/3", "job/2", "job/1"}));
  EXPECT_EQ(found(*scratch.store, "J", 2), (std::vector<std::string>{"job/3", "job/2"}));
  EXPECT_EQ(found(*scratch.store, "penon inver"), (std::vector<std::string>{"job/1"}));
  EXPECT_EQ(found(*scratch.store, "1042"), (std::vector<std::string>{"job/1"}));
  EXPECT_EQ(found(*scratch.store, "042"), (std::vector<std::string>{}));
  EXPECT_EQ(found(*scratch.store, "aqua orchard"), (std::vector<std::string>{}));
  EXPECT_EQ(found(*scratch.store, "  "), (std::vector<std::string>{}));
}

TEST(Index, TakesNothingInASearchAsACommand) {
  ScratchStore scratch;
  append_with(*scratch.store, "job/1", "k1", {entry("job/1", "pump NOT wash"), {}, {}});
  for (const char* text : {"\"", "a\"b", "pump*", "NOT", "AND", "search:x", "(pump", "^pump", "pump OR",
                           "NEAR(a b)", "-", "\xff\xfe", "'; DROP TABLE event; --", "—"}) {
    EXPECT_NO_THROW(scratch->index().search(text, 5)) << text;
  }
  EXPECT_EQ(found(*scratch.store, "NOT"), (std::vector<std::string>{"job/1"}));
  EXPECT_EQ(found(*scratch.store, "(pump"), (std::vector<std::string>{"job/1"}));
}

TEST(Index, ForgetsTheWordsOfAnEntryThatChanged) {
  ScratchStore scratch;
  append_with(*scratch.store, "job/1", "k1", {entry("job/1", "greenhouse loop"), {}, {}});
  append_with(*scratch.store, "job/1", "k2", {entry("job/1", "greenhouse heating"), {}, {}});
  EXPECT_TRUE(found(*scratch.store, "loop").empty());
  EXPECT_EQ(found(*scratch.store, "heat").size(), 1U);
  expect_sound_search(scratch);
}

TEST(Index, KeepsTheValuesOfASeriesByTimeAndReplacesByReference) {
  ScratchStore scratch;
  append_with(*scratch.store, "job/1", "k1",
              {{}, {}, {value("job/1", "r1", 1.0, "2026-01-01"), value("job/1", "r2", 2.0, "2026-03-01")}});
  append_with(*scratch.store, "job/2", "k2", {{}, {}, {value("job/2", "r1", 3.0, "2026-02-01")}});
  append_with(*scratch.store, "job/1", "k3",
              {{}, {{"shaft-runout", "r1"}}, {value("job/1", "r2", 2.5, "2026-03-02")}});
  const auto series = scratch->index().series("shaft-runout", 10);
  ASSERT_EQ(series.size(), 2U);
  EXPECT_EQ(series[0], value("job/1", "r2", 2.5, "2026-03-02"));
  EXPECT_EQ(series[1], value("job/2", "r1", 3.0, "2026-02-01"));
  EXPECT_EQ(scratch->index().series("shaft-runout", 1).size(), 1U);
  EXPECT_TRUE(scratch->index().series("end-float", 10).empty());
}

TEST(Index, IsReplacedOnlyWhereTheStreamStandsAsExpected) {
  ScratchStore scratch;
  append_with(*scratch.store, "job/1", "k1", {entry("job/1", "old"), {}, {value("job/1", "r1", 1.0, "t")}});
  const StreamIndex contents{entry("job/1", "new"), {value("job/1", "r2", 2.0, "t")}};
  EXPECT_FALSE(scratch->index().replace("job/1", contents, Head{}));
  EXPECT_FALSE(scratch->index().replace("job/9", contents, Head{}));
  EXPECT_EQ(scratch->index().entry("job/1")->search, "old");
  EXPECT_TRUE(scratch->index().replace("job/1", contents, scratch->events().head("job/1")));
  EXPECT_EQ(scratch->index().entry("job/1")->search, "new");
  EXPECT_EQ(scratch->index().series("shaft-runout", 10).at(0).ref, "r2");
  EXPECT_TRUE(scratch->index().replace("job/1", {}, scratch->events().head("job/1")));
  EXPECT_EQ(scratch->index().dump(), "");
  EXPECT_TRUE(found(*scratch.store, "new").empty());
  expect_sound_search(scratch);
}

TEST(Index, IsTheSameAfterClearingAndRebuilding) {
  ScratchStore scratch;
  append_with(*scratch.store, "job/1", "k1",
              {entry("job/1", "greenhouse"), {}, {value("job/1", "r1", 0.1, "t")}});
  append_with(*scratch.store, "job/2", "k2", {entry("job/2", "aquarium", false), {}, {}});
  const std::string before = scratch->index().dump();
  EXPECT_NE(before.find("greenhouse"), std::string::npos);
  scratch->index().clear();
  EXPECT_EQ(scratch->index().dump(), "");
  EXPECT_TRUE(found(*scratch.store, "green").empty());
  std::vector<std::string> asked;
  scratch->index().rebuild([&](const std::string& stream) {
    asked.push_back(stream + " " + std::to_string(scratch->events().read(stream).size()));
    if (stream == "job/1") return StreamIndex{entry(stream, "greenhouse"), {value(stream, "r1", 0.1, "t")}};
    return StreamIndex{entry(stream, "aquarium", false), {}};
  });
  EXPECT_EQ(asked, (std::vector<std::string>{"job/1 1", "job/2 1"}));
  EXPECT_EQ(scratch->index().dump(), before);
  EXPECT_EQ(found(*scratch.store, "green").size(), 1U);
  expect_sound_search(scratch);
}

TEST(Index, StaysWhenARebuildFails) {
  ScratchStore scratch;
  append_with(*scratch.store, "job/1", "k1", {entry("job/1", "greenhouse"), {}, {}});
  const std::string before = scratch->index().dump();
  EXPECT_THROW(
      scratch->index().rebuild([](const std::string&) -> StreamIndex { throw std::runtime_error("x"); }),
      std::runtime_error);
  EXPECT_EQ(scratch->index().dump(), before);
  EXPECT_EQ(found(*scratch.store, "green").size(), 1U);
}

TEST(Index, DumpsTellApartWhatDiffers) {
  ScratchStore one;
  ScratchStore other;
  IndexEntry left = entry("job/1", "a b");
  IndexEntry right = left;
  right.fields += ' ';
  append_with(*one.store, "job/1", "k1", {left, {}, {}});
  append_with(*other.store, "job/1", "k1", {right, {}, {}});
  EXPECT_NE(one->index().dump(), other->index().dump());
}

// Search answers while typing only when the rows come in order without a sort.
TEST(Index, SearchesWithoutSorting) {
  ScratchStore scratch;
  SQLite::Database database(scratch.file.string(), SQLite::OPEN_READONLY);
  SQLite::Statement plan(database,
                         "EXPLAIN QUERY PLAN SELECT stream.name FROM index_search"
                         " CROSS JOIN index_entry ON index_entry.stream_id = index_search.rowid"
                         " CROSS JOIN stream ON stream.id = index_entry.stream_id"
                         " WHERE index_search MATCH 'a*' ORDER BY index_search.rowid DESC LIMIT 5");
  int rows = 0;
  while (plan.executeStep()) {
    ++rows;
    EXPECT_EQ(plan.getColumn(3).getString().find("TEMP B-TREE"), std::string::npos);
  }
  EXPECT_GE(rows, 3);
}

}  // namespace
}  // namespace pumpwright::store

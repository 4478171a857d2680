// An index kept up append by append is the index made anew from the log.
#include <fmt/format.h>
#include <rapidcheck.h>

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

// A fold that makes everything the index can hold depend on the whole stream: words, order, open or not,
// values that come, change and go.
StreamIndex index_of(const std::string& stream, std::span<const StoredEvent> events) {
  StreamIndex made;
  std::string words;
  bool open = true;
  for (const auto& one : events) {
    const int drawn = std::stoi(one.payload);
    if (drawn % 5 == 0) words = fmt::format("{} pump{}", words, drawn);
    if (drawn % 7 == 0) open = !open;
    const std::string ref = fmt::format("r{}", drawn % 4);
    std::erase_if(made.values, [&](const IndexValue& value) { return value.ref == ref; });
    if (drawn % 3 != 0)
      made.values.push_back({stream, "shaft-runout", one.accepted_at, ref, drawn / 10.0, one.key});
  }
  made.entry = IndexEntry{stream, fmt::format("{:03}", events.size()), events.back().payload, words, open};
  return made;
}

// The change that takes the index of all but the last event to that of all.
IndexChange change_of(const std::string& stream, std::span<const StoredEvent> events) {
  const StreamIndex after = index_of(stream, events);
  IndexChange change;
  change.entry = after.entry;
  for (int r = 0; r < 4; ++r)
    change.drop_values.push_back({"shaft-runout", fmt::format("r{}", r)});
  change.put_values = after.values;
  return change;
}

TEST(IndexProperties, RebuildingGivesWhatTheAppendsHadMade) {
  EXPECT_TRUE(rc::check("rebuilt index equals the incremental one", [] {
    const auto drawn = *rc::gen::container<std::vector<std::pair<int, int>>>(
        rc::gen::pair(rc::gen::inRange(0, 3), rc::gen::inRange(0, 100)));
    ScratchStore scratch;
    int count = 0;
    for (const auto& [number, payload] : drawn) {
      const std::string stream = fmt::format("job/{}", number);
      auto events = scratch->events().read(stream);
      Append append = append_of(stream, {event(fmt::format("k{}", ++count), std::to_string(payload))});
      append.index_change = [&](std::span<const StoredEvent> appended) {
        events.insert(events.end(), appended.begin(), appended.end());
        return change_of(stream, events);
      };
      must_append(*scratch.store, append);
    }
    const std::string incremental = scratch->index().dump();
    const auto found = scratch->index().search("pump", 100);
    const auto make = [&](const std::string& stream) {
      return index_of(stream, scratch->events().read(stream));
    };
    scratch->index().rebuild(make);
    RC_ASSERT(scratch->index().dump() == incremental);
    RC_ASSERT(scratch->index().search("pump", 100) == found);
    // One stream at a time gives the same.
    scratch->index().clear();
    for (const auto& stream : scratch->events().streams()) {
      RC_ASSERT(scratch->index().replace(stream.stream, make(stream.stream), stream.head));
    }
    RC_ASSERT(scratch->index().dump() == incremental);
    RC_ASSERT(drawn.empty() == incremental.empty());
  }));
}

}  // namespace
}  // namespace pumpwright::store

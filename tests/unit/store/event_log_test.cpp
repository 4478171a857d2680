#include "store/event_log.h"

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

TEST(EventLog, GivesBackWhatWasAppendedByteForByte) {
  ScratchStore scratch;
  const std::string payload("{\"a\":\t\"\0\xff \xc3\xb1\"}", 14);
  const auto appended = must_append(*scratch.store, append_of("job/1042", {event("k1", payload)}));
  const auto events = scratch->events().read("job/1042");
  ASSERT_EQ(events.size(), 1U);
  EXPECT_EQ(events, appended.events);
  EXPECT_EQ(events[0].payload, payload);
  EXPECT_EQ(events[0].stream, "job/1042");
  EXPECT_EQ(events[0].seq, 1U);
  EXPECT_EQ(events[0].device_seq, 7U);
  EXPECT_EQ(events[0].accepted_at, "2026-11-25T14:02:00.250Z");
  EXPECT_EQ(events[0].prev, Hash{});
  EXPECT_EQ(events[0].hash, event_hash(events[0]));
}

TEST(EventLog, CountsAndChainsEachStreamByItself) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a"), event("b")}));
  must_append(*scratch.store, append_of("job/2", {event("c")}));
  const auto last = must_append(*scratch.store, append_of("job/1", {event("d")}));
  const auto first = scratch->events().read("job/1");
  ASSERT_EQ(first.size(), 3U);
  EXPECT_FALSE(first_break("job/1", first).has_value());
  EXPECT_EQ(last.head, (Head{3, first[2].hash}));
  EXPECT_EQ(scratch->events().head("job/1"), last.head);
  EXPECT_EQ(scratch->events().head("job/2").seq, 1U);
  EXPECT_EQ(scratch->events().head("job/3"), Head{});
  const auto streams = scratch->events().streams();
  ASSERT_EQ(streams.size(), 2U);
  EXPECT_EQ(streams[0], (StreamHead{"job/1", last.head}));
  EXPECT_EQ(streams[1].stream, "job/2");
}

TEST(EventLog, ReadsFromASequenceNumberOn) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a"), event("b"), event("c")}));
  const auto late = scratch->events().read("job/1", 2);
  ASSERT_EQ(late.size(), 2U);
  EXPECT_EQ(late[0].key, "b");
  EXPECT_EQ(scratch->events().read("job/1", 1, 1).size(), 1U);
  EXPECT_TRUE(scratch->events().read("job/1", 4).empty());
  EXPECT_TRUE(scratch->events().read("job/1", UINT64_MAX).empty());
}

TEST(EventLog, GivesBackTheStoredEventWhenItIsHandedInAgain) {
  ScratchStore scratch;
  const auto first = must_append(*scratch.store, append_of("job/1", {event("a")}));
  scratch.now_ms += 60'000;
  NewEvent again = event("a");
  again.device_seq = 8;  // a tablet that lost its count sends the same reading
  const auto second = must_append(*scratch.store, append_of("job/1", {again, event("b")}));
  EXPECT_EQ(second.fresh, 1U);
  ASSERT_EQ(second.events.size(), 2U);
  EXPECT_EQ(second.events[0], first.events[0]);
  EXPECT_EQ(second.events[1].seq, 2U);
  EXPECT_EQ(scratch->events().read("job/1").size(), 2U);
}

TEST(EventLog, TakesAnEventTwiceInOneAppendAsOne) {
  ScratchStore scratch;
  const auto appended = must_append(*scratch.store, append_of("job/1", {event("a"), event("a")}));
  EXPECT_EQ(appended.fresh, 1U);
  ASSERT_EQ(appended.events.size(), 2U);
  EXPECT_EQ(appended.events[0], appended.events[1]);
}

TEST(EventLog, RefusesAKeyThatStandsForSomethingElse) {
  ScratchStore scratch;
  must_append(*scratch.store, append_of("job/1", {event("a")}));
  const auto refused = [&](const Append& append) {
    const auto result = scratch->events().append(append);
    const auto* reused = std::get_if<KeyReused>(&result);
    return reused ? reused->key : "";
  };
  EXPECT_EQ(refused(append_of("job/1", {event("b"), event("a", "{}")})), "a");
  EXPECT_EQ(refused(append_of("job/2", {event("a")})), "a");
  EXPECT_EQ(refused(append_of("job/1", {event("a", event("a").payload, "note")})), "a");
  EXPECT_EQ(refused(append_of("job/1", {event("c"), event("c", "{}")})), "c");
  EXPECT_EQ(scratch->events().read("job/1").size(), 1U) << "nothing of a refused append is stored";
  EXPECT_EQ(scratch->events().streams().size(), 1U);
}

TEST(EventLog, RefusesAnAppendOnAnotherHeadAndSaysWhereTheStreamStands) {
  ScratchStore scratch;
  Append first = append_of("job/1", {event("a")});
  first.expected_head = Head{};
  const auto head = must_append(*scratch.store, first).head;
  Append late = append_of("job/1", {event("b")});
  late.expected_head = Head{};
  const auto result = scratch->events().append(late);
  ASSERT_TRUE(std::holds_alternative<HeadMoved>(result));
  EXPECT_EQ(std::get<HeadMoved>(result).found, head);
  late.expected_head = head;
  EXPECT_EQ(must_append(*scratch.store, late).head.seq, 2U);
  // Handed in again after its answer was lost: it is there, whatever came since.
  EXPECT_EQ(must_append(*scratch.store, late).fresh, 0U);
}

TEST(EventLog, RefusesWhatIsOutOfBounds) {
  ScratchStore scratch;
  const auto field = [&](const Append& append) {
    const auto result = scratch->events().append(append);
    const auto* malformed = std::get_if<Malformed>(&result);
    return malformed ? malformed->field : "accepted";
  };
  const auto with = [](auto change) {
    NewEvent one = event("a");
    change(one);
    return append_of("job/1", {one});
  };
  EXPECT_EQ(field(append_of("", {event("a")})), "stream");
  EXPECT_EQ(field(append_of("job/\n", {event("a")})), "stream");
  EXPECT_EQ(field(append_of("job/1", {})), "events");
  EXPECT_EQ(field(append_of("job/1", std::vector<NewEvent>(events_per_append_max + 1, event("a")))),
            "events");
  EXPECT_EQ(field(with([](NewEvent& e) { e.type.clear(); })), "type");
  EXPECT_EQ(field(with([](NewEvent& e) { e.actor = std::string(129, 'x'); })), "actor");
  EXPECT_EQ(field(with([](NewEvent& e) { e.device = std::string("a\0b", 3); })), "device");
  EXPECT_EQ(field(with([](NewEvent& e) { e.key = std::string(65, 'k'); })), "key");
  EXPECT_EQ(field(with([](NewEvent& e) { e.device_seq = std::uint64_t{1} << 63U; })), "device_seq");
  EXPECT_EQ(field(with([](NewEvent& e) { e.payload = std::string(event_payload_bytes_max + 1, ' '); })),
            "payload");
  EXPECT_TRUE(scratch->events().streams().empty());
  EXPECT_EQ(field(with([](NewEvent& e) { e.payload = std::string(event_payload_bytes_max, ' '); })),
            "accepted");
  EXPECT_EQ(scratch->events().read("job/1").at(0).payload.size(), event_payload_bytes_max);
}

TEST(EventLog, FindsAnEventByItsKey) {
  ScratchStore scratch;
  const auto appended = must_append(*scratch.store, append_of("job/1", {event("a"), event("b")}));
  EXPECT_EQ(scratch->events().find("b"), appended.events[1]);
  EXPECT_FALSE(scratch->events().find("c").has_value());
}

TEST(EventLog, KeepsEverythingOverAClosedStore) {
  ScratchStore scratch;
  const auto before = must_append(*scratch.store, append_of("job/1", {event("a"), event("b")}));
  scratch.store.reset();
  scratch.store = scratch.open();
  EXPECT_EQ(scratch->events().read("job/1"), before.events);
  EXPECT_EQ(must_append(*scratch.store, append_of("job/1", {event("c")})).head.seq, 3U);
}

TEST(EventLog, TellsTheListenerOfNewEventsInOrderAndOfNoOthers) {
  ScratchStore scratch;
  std::vector<std::string> heard;
  scratch->events().set_listener([&](std::span<const StoredEvent> events) {
    for (const auto& one : events)
      heard.push_back(one.stream + " " + std::to_string(one.seq) + " " + one.key);
  });
  must_append(*scratch.store, append_of("job/1", {event("a"), event("b")}));
  must_append(*scratch.store, append_of("job/1", {event("a")}));
  scratch->events().append(append_of("job/1", {event("a", "{}")}));
  Append failing = append_of("job/1", {event("x")});
  failing.index_change = [](auto) -> IndexChange { throw std::runtime_error("no index"); };
  EXPECT_THROW(scratch->events().append(failing), std::runtime_error);
  must_append(*scratch.store, append_of("job/2", {event("c")}));
  EXPECT_EQ(heard, (std::vector<std::string>{"job/1 1 a", "job/1 2 b", "job/2 1 c"}));
  scratch->events().set_listener({});
  must_append(*scratch.store, append_of("job/2", {event("d")}));
  EXPECT_EQ(heard.size(), 3U);
}

}  // namespace
}  // namespace pumpwright::store

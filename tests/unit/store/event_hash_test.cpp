#include "store/event_hash.h"

#include <gtest/gtest.h>
#include <sodium.h>

namespace pumpwright::store {
namespace {

StoredEvent sample() {
  StoredEvent event;
  event.stream = "job/1042";
  event.seq = 3;
  event.type = "reading";
  event.actor = "jm";
  event.device = "bench-3";
  event.device_seq = 17;
  event.key = "k-1";
  event.accepted_at = "2026-11-25T14:02:00.250Z";
  event.payload = R"({"check":"impeller-sweep"})";
  event.prev.fill(0x5a);
  return event;
}

// The bytes of the format written out by hand, hashed by libsodium in one go.
TEST(EventHash, IsTheHashOfTheLengthPrefixedParts) {
  std::string bytes;
  const auto part = [&](const std::string& text) {
    bytes += static_cast<char>(text.size());
    bytes += std::string(7, '\0');
    bytes += text;
  };
  for (const char* text : {"pumpwright-event-1", "job/1042", "3", "reading", "jm", "bench-3", "17", "k-1",
                           "2026-11-25T14:02:00.250Z", R"({"check":"impeller-sweep"})"}) {
    part(text);
  }
  part(std::string(32, '\x5a'));
  EXPECT_EQ(event_hash(sample()), blake2b_256(bytes));
}

// BLAKE2b-256 of "abc", as printed by Python's hashlib.blake2b(b"abc", digest_size=32) and b2sum -l 256.
TEST(EventHash, Blake2bGivesTheKnownDigest) {
  EXPECT_EQ(to_hex(blake2b_256("abc")), "bddd813c634239723171ef3fee98579b94964e3bb1cb3e427262c8c068d52319");
}

TEST(EventHash, DependsOnEveryField) {
  const Hash before = event_hash(sample());
  const auto changed = [&](auto change) {
    StoredEvent event = sample();
    change(event);
    return event_hash(event) != before;
  };
  EXPECT_TRUE(changed([](StoredEvent& e) { e.stream += "0"; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.seq = 4; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.type = "note"; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.actor = "rk"; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.device = "bench-4"; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.device_seq = 18; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.key = "k-2"; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.accepted_at[20] = '1'; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.payload[0] = '['; }));
  EXPECT_TRUE(changed([](StoredEvent& e) { e.prev[31] = 0; }));
}

TEST(EventHash, DoesNotLetTextMoveFromOneFieldToTheNext) {
  StoredEvent one = sample();
  one.actor = "jm";
  one.device = "bench-3";
  StoredEvent other = sample();
  other.actor = "jmbench";
  other.device = "-3";
  EXPECT_NE(event_hash(one), event_hash(other));
}

TEST(EventHash, HexGoesThereAndBack) {
  const Hash hash = blake2b_256("wear ring");
  EXPECT_EQ(hash_from_hex(to_hex(hash)), hash);
  EXPECT_FALSE(hash_from_hex("").has_value());
  EXPECT_FALSE(hash_from_hex(std::string(63, 'a')).has_value());
  EXPECT_FALSE(hash_from_hex(std::string(65, 'a')).has_value());
  EXPECT_FALSE(hash_from_hex(std::string(64, 'A')).has_value());
  EXPECT_FALSE(hash_from_hex(std::string(63, 'a') + "g").has_value());
}

std::vector<StoredEvent> chain_of(std::size_t count) {
  std::vector<StoredEvent> events;
  Hash prev{};
  for (std::size_t i = 0; i < count; ++i) {
    StoredEvent event = sample();
    event.seq = i + 1;
    event.key = "k-" + std::to_string(i);
    event.prev = prev;
    event.hash = prev = event_hash(event);
    events.push_back(event);
  }
  return events;
}

TEST(ChainCheck, AcceptsAWholeChain) {
  const auto events = chain_of(4);
  EXPECT_FALSE(first_break("job/1042", events).has_value());
  EXPECT_FALSE(first_break("job/1042", {}).has_value());
}

TEST(ChainCheck, ContinuesFromATrustedHead) {
  const auto events = chain_of(4);
  ChainCheck check("job/1042", {2, events[1].hash});
  EXPECT_FALSE(check.next(events[2]).has_value());
  EXPECT_EQ(check.head(), (Head{3, events[2].hash}));
}

TEST(ChainCheck, NamesTheFirstEventThatDoesNotFit) {
  using What = ChainBreak::What;
  const auto broken_by = [](auto change) {
    auto events = chain_of(4);
    change(events);
    return first_break("job/1042", events);
  };
  EXPECT_EQ(broken_by([](auto& e) { e[2].payload += ' '; }), (ChainBreak{What::hash_differs, 3, "k-2"}));
  EXPECT_EQ(broken_by([](auto& e) { e.erase(e.begin() + 1); }), (ChainBreak{What::seq_gap, 2, "k-2"}));
  EXPECT_EQ(broken_by([](auto& e) { e[1].stream = "job/7"; }), (ChainBreak{What::other_stream, 2, "k-1"}));
  EXPECT_EQ(broken_by([](auto& e) {
              e[1].payload += ' ';
              e[1].hash = event_hash(e[1]);  // a forger who computes the hash anew is caught one event later
            }),
            (ChainBreak{What::prev_differs, 3, "k-2"}));
}

}  // namespace
}  // namespace pumpwright::store

// The one place that computes the hash of an event and checks a chain of them. Needs no database, so that a
// record can be verified on another machine.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "store/event.h"

namespace pumpwright::store {

// BLAKE2b-256 over the length-prefixed (64 bit, little endian) byte strings "pumpwright-event-1", stream, seq
// in decimal, type, actor, device, device_seq in decimal, key, accepted_at, payload, prev (32 raw bytes).
// event.hash is not read.
Hash event_hash(const StoredEvent& event);

// BLAKE2b-256 of any bytes.
Hash blake2b_256(std::string_view bytes);

// 64 lower-case hexadecimal digits, and back. Nothing when the text is anything else (upper case included).
std::string to_hex(const Hash& hash);
std::optional<Hash> hash_from_hex(std::string_view text);

// Where a chain does not hold.
struct ChainBreak {
  enum class What {
    other_stream,  // the event belongs to another stream
    seq_gap,       // its seq is not the one before plus one
    prev_differs,  // it does not name the hash of the one before
    hash_differs,  // its own content does not give its hash
  };
  What what = What::hash_differs;
  std::uint64_t seq = 0;  // the seq expected at this place
  std::string key;        // of the event found there

  bool operator==(const ChainBreak&) const = default;
};

// Plain words for it, in English.
std::string_view text_of(ChainBreak::What what);

// Takes the events of one stream in order and finds the first that does not fit. Start from nothing, or from
// a trusted head.
class ChainCheck {
 public:
  explicit ChainCheck(std::string stream, Head start = {});

  // Nothing when the event continues the chain. After a break the check stays where it was.
  std::optional<ChainBreak> next(const StoredEvent& event);
  const Head& head() const { return head_; }

 private:
  std::string stream_;
  Head head_;
};

// The same over a whole span.
std::optional<ChainBreak> first_break(const std::string& stream, std::span<const StoredEvent> events);

}  // namespace pumpwright::store

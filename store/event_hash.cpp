#include "store/event_hash.h"

#include <stdexcept>
#include <utility>

#include <sodium.h>

namespace pumpwright::store {
namespace {

void start_sodium() {
  static const bool ready = sodium_init() >= 0;
  if (!ready) throw std::runtime_error("libsodium does not start");
}

// Length-prefixed parts, so that no two different lists of parts give the same bytes.
class PartHash {
 public:
  PartHash() {
    start_sodium();
    crypto_generichash_init(&state_, nullptr, 0, Hash{}.size());
  }

  PartHash& part(std::string_view bytes) {
    std::array<unsigned char, 8> length{};
    for (std::size_t i = 0; i < length.size(); ++i) {
      length[i] = static_cast<unsigned char>((static_cast<std::uint64_t>(bytes.size()) >> (8 * i)) & 0xffU);
    }
    crypto_generichash_update(&state_, length.data(), length.size());
    // NOLINTNEXTLINE(*-reinterpret-cast): libsodium takes unsigned bytes
    crypto_generichash_update(&state_, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    return *this;
  }

  Hash finish() {
    Hash hash{};
    crypto_generichash_final(&state_, hash.data(), hash.size());
    return hash;
  }

 private:
  crypto_generichash_state state_{};
};

int digit_of(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  return -1;
}

}  // namespace

Hash event_hash(const StoredEvent& event) {
  // NOLINTNEXTLINE(*-reinterpret-cast): the raw bytes of the hash before
  const std::string_view prev(reinterpret_cast<const char*>(event.prev.data()), event.prev.size());
  return PartHash()
      .part("pumpwright-event-1")
      .part(event.stream)
      .part(std::to_string(event.seq))
      .part(event.type)
      .part(event.actor)
      .part(event.device)
      .part(std::to_string(event.device_seq))
      .part(event.key)
      .part(event.accepted_at)
      .part(event.payload)
      .part(prev)
      .finish();
}

Hash blake2b_256(std::string_view bytes) {
  start_sodium();
  Hash hash{};
  // NOLINTNEXTLINE(*-reinterpret-cast): libsodium takes unsigned bytes
  const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
  crypto_generichash(hash.data(), hash.size(), data, bytes.size(), nullptr, 0);
  return hash;
}

std::string to_hex(const Hash& hash) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  text.reserve(2 * hash.size());
  for (const std::uint8_t byte : hash) {
    text += digits[byte >> 4U];
    text += digits[byte & 15U];
  }
  return text;
}

std::optional<Hash> hash_from_hex(std::string_view text) {
  Hash hash{};
  if (text.size() != 2 * hash.size()) return std::nullopt;
  for (std::size_t i = 0; i < hash.size(); ++i) {
    const int high = digit_of(text[2 * i]);
    const int low = digit_of(text[2 * i + 1]);
    if (high < 0 || low < 0) return std::nullopt;
    hash[i] = static_cast<std::uint8_t>(16 * high + low);
  }
  return hash;
}

std::string_view text_of(ChainBreak::What what) {
  switch (what) {
    case ChainBreak::What::other_stream:
      return "belongs to another stream";
    case ChainBreak::What::seq_gap:
      return "is not the next one";
    case ChainBreak::What::prev_differs:
      return "does not follow the event before it";
    case ChainBreak::What::hash_differs:
      return "is not what was accepted";
  }
  return "";
}

ChainCheck::ChainCheck(std::string stream, Head start) : stream_(std::move(stream)), head_(start) {}

std::optional<ChainBreak> ChainCheck::next(const StoredEvent& event) {
  const auto broken = [&](ChainBreak::What what) { return ChainBreak{what, head_.seq + 1, event.key}; };
  if (event.stream != stream_) return broken(ChainBreak::What::other_stream);
  if (event.seq != head_.seq + 1) return broken(ChainBreak::What::seq_gap);
  if (event.prev != head_.hash) return broken(ChainBreak::What::prev_differs);
  if (event_hash(event) != event.hash) return broken(ChainBreak::What::hash_differs);
  head_ = {event.seq, event.hash};
  return std::nullopt;
}

std::optional<ChainBreak> first_break(const std::string& stream, std::span<const StoredEvent> events) {
  ChainCheck check(stream);
  for (const StoredEvent& event : events) {
    if (auto broken = check.next(event)) return broken;
  }
  return std::nullopt;
}

}  // namespace pumpwright::store

// What the log keeps: one event as it is handed in, and as it stands afterwards. The payload is opaque bytes;
// the store never looks inside.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

namespace pumpwright::store {

// BLAKE2b-256.
using Hash = std::array<std::uint8_t, 32>;

// Bounds of an envelope. The texts are not empty and hold no control characters.
inline constexpr std::size_t event_key_bytes_max = 64;
inline constexpr std::size_t event_text_bytes_max = 128;  // stream, type, actor, device
inline constexpr std::size_t event_payload_bytes_max = std::size_t{1024} * 1024;
inline constexpr std::size_t events_per_append_max = 256;

struct NewEvent {
  std::string type;
  std::string actor;             // person id
  std::string device;            // device id
  std::uint64_t device_seq = 0;  // counts on that device; below 2^63
  std::string key;               // idempotency key, made by the client, unique in the whole store
  std::string payload;           // bytes as received
};

struct StoredEvent {
  std::string stream;
  std::uint64_t seq = 0;  // 1, 2, 3 … without gaps in a stream
  std::string type;
  std::string actor;
  std::string device;
  std::uint64_t device_seq = 0;
  std::string key;
  std::string accepted_at;  // UTC, ISO 8601 with milliseconds, stamped by the store
  std::string payload;
  Hash prev{};  // hash of the event before in the stream; zeros at its start
  Hash hash{};  // see event_hash.h

  bool operator==(const StoredEvent&) const = default;
};

// The last event of a stream. {0, zeros}: nothing there yet.
struct Head {
  std::uint64_t seq = 0;
  Hash hash{};

  bool operator==(const Head&) const = default;
};

}  // namespace pumpwright::store

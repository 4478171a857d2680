// Events as rows: the columns in one order, for all who read them. Internal to this folder.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "store/connection.h"
#include "store/event.h"

namespace pumpwright::store {

// What to select from `event` joined with `stream`, in the order event_of reads.
#define PUMPWRIGHT_EVENT_COLUMNS                                                                 \
  "stream.name, event.seq, event.type, event.actor, event.device, event.device_seq, event.key, " \
  "event.accepted_at, event.payload, event.prev, event.hash"

inline StoredEvent event_of(const Query& row) {
  StoredEvent event;
  event.stream = row.bytes(0);
  event.seq = static_cast<std::uint64_t>(row.integer(1));
  event.type = row.bytes(2);
  event.actor = row.bytes(3);
  event.device = row.bytes(4);
  event.device_seq = static_cast<std::uint64_t>(row.integer(5));
  event.key = row.bytes(6);
  event.accepted_at = row.bytes(7);
  event.payload = row.bytes(8);
  event.prev = row.hash(9);
  event.hash = row.hash(10);
  return event;
}

inline std::optional<StoredEvent> event_with_key(Connection& connection, const std::string& key) {
  Query query(connection, "SELECT " PUMPWRIGHT_EVENT_COLUMNS
                          " FROM event JOIN stream ON stream.id = event.stream_id WHERE event.key = ?1");
  query.bind_text(1, key);
  if (!query.step()) return std::nullopt;
  return event_of(query);
}

// Row id of a stream; nothing when it is not there.
inline std::optional<std::int64_t> stream_id_of(Connection& connection, const std::string& stream) {
  Query query(connection, "SELECT id FROM stream WHERE name = ?1");
  query.bind_text(1, stream);
  if (!query.step()) return std::nullopt;
  return query.integer(0);
}

inline Head head_of(Connection& connection, std::int64_t stream_id) {
  Query query(connection, "SELECT seq, hash FROM event WHERE stream_id = ?1 ORDER BY seq DESC LIMIT 1");
  query.bind(1, stream_id);
  if (!query.step()) return {};
  return {static_cast<std::uint64_t>(query.integer(0)), query.hash(1)};
}

}  // namespace pumpwright::store

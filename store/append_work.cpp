#include "store/append_work.h"

#include <algorithm>
#include <limits>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "store/event_rows.h"
#include "store/index_rows.h"
#include "store/utc_text.h"

namespace pumpwright::store {
namespace {

struct BoundedText {
  const char* field;
  const std::string& value;
  std::size_t bytes_max;
};

std::optional<Malformed> wrong_text(const BoundedText& text) {
  const auto is_control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; };
  const bool fits = !text.value.empty() && text.value.size() <= text.bytes_max &&
                    std::none_of(text.value.begin(), text.value.end(), is_control);
  if (fits) return std::nullopt;
  return Malformed{text.field, fmt::format("1 to {} bytes without control characters", text.bytes_max)};
}

std::optional<Malformed> wrong_part(const NewEvent& event) {
  const BoundedText texts[] = {{"type", event.type, event_text_bytes_max},
                               {"actor", event.actor, event_text_bytes_max},
                               {"device", event.device, event_text_bytes_max},
                               {"key", event.key, event_key_bytes_max}};
  for (const BoundedText& text : texts) {
    if (auto wrong = wrong_text(text)) return wrong;
  }
  if (event.payload.size() > event_payload_bytes_max) {
    return Malformed{"payload", fmt::format("at most {} bytes", event_payload_bytes_max)};
  }
  if (event.device_seq > static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max())) {
    return Malformed{"device_seq", "below 2^63"};
  }
  return std::nullopt;
}

// What is known of each handed-in event before anything is written.
struct Lookup {
  std::vector<std::optional<StoredEvent>> there;  // stored before
  std::vector<std::optional<std::size_t>>
      same_as;  // place of an earlier one with the same key in this append
  std::size_t fresh = 0;
  std::optional<std::string> reused_key;
};

Lookup look_up(Connection& connection, const Append& append) {
  Lookup lookup;
  std::unordered_map<std::string_view, std::size_t> places;
  for (std::size_t i = 0; i < append.events.size(); ++i) {
    const NewEvent& event = append.events[i];
    const auto [place, is_first] = places.emplace(event.key, i);
    auto there = is_first ? event_with_key(connection, event.key) : std::nullopt;
    const NewEvent& first = append.events[place->second];
    const bool same_here = first.type == event.type && first.payload == event.payload;
    const bool same_there = !there || (there->stream == append.stream && there->type == event.type &&
                                       there->payload == event.payload);
    if (!same_here || !same_there) {
      lookup.reused_key = event.key;
      return lookup;
    }
    if (is_first && !there) ++lookup.fresh;
    lookup.there.push_back(std::move(there));
    lookup.same_as.push_back(is_first ? std::nullopt : std::optional(place->second));
  }
  return lookup;
}

std::int64_t begin_stream(Connection& connection, const std::string& stream) {
  Query(connection, "INSERT INTO stream (name) VALUES (?1)").bind_text(1, stream).run();
  return *stream_id_of(connection, stream);
}

void insert(Connection& connection, std::int64_t stream_id, const StoredEvent& event) {
  Query(connection,
        "INSERT INTO event (stream_id, seq, type, actor, device, device_seq, key, accepted_at, payload, "
        "prev, hash)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)")
      .bind(1, stream_id)
      .bind(2, static_cast<std::int64_t>(event.seq))
      .bind_text(3, event.type)
      .bind_text(4, event.actor)
      .bind_text(5, event.device)
      .bind(6, static_cast<std::int64_t>(event.device_seq))
      .bind_text(7, event.key)
      .bind_text(8, event.accepted_at)
      .bind_bytes(9, event.payload)
      .bind_hash(10, event.prev)
      .bind_hash(11, event.hash)
      .run();
}

StoredEvent after(const Head& head, const std::string& stream, const NewEvent& event,
                  const std::string& now) {
  StoredEvent stored{stream,        head.seq + 1,     event.type, event.actor,
                     event.device,  event.device_seq, event.key,  now,
                     event.payload, head.hash,        {}};
  stored.hash = event_hash(stored);
  return stored;
}

}  // namespace

std::optional<Malformed> malformed_part(const Append& append) {
  if (auto wrong = wrong_text({"stream", append.stream, event_text_bytes_max})) return wrong;
  if (append.events.empty() || append.events.size() > events_per_append_max) {
    return Malformed{"events", fmt::format("1 to {} events", events_per_append_max)};
  }
  for (const NewEvent& event : append.events) {
    if (auto wrong = wrong_part(event)) return wrong;
  }
  return std::nullopt;
}

AppendResult append_in(WriteScope& scope, const Append& append, std::int64_t now_ms) {
  Connection& connection = scope.connection;
  Lookup lookup = look_up(connection, append);
  if (lookup.reused_key) return KeyReused{*lookup.reused_key};
  auto stream_id = stream_id_of(connection, append.stream);
  Head head = stream_id ? head_of(connection, *stream_id) : Head{};
  if (lookup.fresh > 0 && append.expected_head && *append.expected_head != head) return HeadMoved{head};
  if (lookup.fresh > 0 && !stream_id) stream_id = begin_stream(connection, append.stream);

  const std::string now = utc_text(now_ms);
  Appended appended;
  appended.fresh = lookup.fresh;
  std::vector<StoredEvent> fresh;
  for (std::size_t i = 0; i < append.events.size(); ++i) {
    if (lookup.same_as[i]) {
      appended.events.push_back(appended.events[*lookup.same_as[i]]);
    } else if (lookup.there[i]) {
      appended.events.push_back(std::move(*lookup.there[i]));
    } else {
      StoredEvent stored = after(head, append.stream, append.events[i], now);
      insert(connection, *stream_id, stored);
      head = {stored.seq, stored.hash};
      fresh.push_back(stored);
      appended.events.push_back(std::move(stored));
    }
  }
  appended.head = head;
  if (!fresh.empty() && append.index_change) {
    change_index(connection, {append.stream, *stream_id}, append.index_change(fresh));
  }
  scope.accepted.insert(scope.accepted.end(), std::make_move_iterator(fresh.begin()),
                        std::make_move_iterator(fresh.end()));
  return appended;
}

}  // namespace pumpwright::store

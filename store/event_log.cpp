#include "store/event_log.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "store/append_work.h"
#include "store/event_rows.h"
#include "store/group_commit.h"
#include "store/reader_pool.h"

namespace pumpwright::store {
namespace {

constexpr std::uint64_t integer_max = std::numeric_limits<std::int64_t>::max();

}  // namespace

AppendResult EventLog::append(const Append& append) {
  if (auto malformed = malformed_part(append)) return *malformed;
  AppendResult result;
  writer_.run([&](WriteScope& scope) { result = append_in(scope, append, now_ms_()); });
  return result;
}

std::vector<AppendResult> EventLog::append_together(std::span<const Append> appends) {
  std::vector<AppendResult> results;
  writer_.run([&](WriteScope& scope) {
    results.clear();
    for (const Append& append : appends) {
      if (auto malformed = malformed_part(append))
        results.emplace_back(*malformed);
      else
        results.push_back(append_in(scope, append, now_ms_()));
    }
  });
  return results;
}

void EventLog::set_listener(AppendListener listener) {
  writer_.set_listener(std::move(listener));
}

std::vector<StoredEvent> EventLog::read(const std::string& stream, std::uint64_t from_seq,
                                        std::size_t count_max) const {
  auto reader = readers_.lease();
  Query query(*reader, "SELECT " PUMPWRIGHT_EVENT_COLUMNS
                       " FROM stream JOIN event ON event.stream_id = stream.id"
                       " WHERE stream.name = ?1 AND event.seq >= ?2 ORDER BY event.seq LIMIT ?3");
  query.bind_text(1, stream)
      .bind(2, static_cast<std::int64_t>(std::min(from_seq, integer_max)))
      .bind(3, static_cast<std::int64_t>(std::min<std::uint64_t>(count_max, integer_max)));
  std::vector<StoredEvent> events;
  while (query.step())
    events.push_back(event_of(query));
  return events;
}

Head EventLog::head(const std::string& stream) const {
  auto reader = readers_.lease();
  const auto id = stream_id_of(*reader, stream);
  return id ? head_of(*reader, *id) : Head{};
}

std::vector<StreamHead> EventLog::streams() const {
  auto reader = readers_.lease();
  Query query(
      *reader,
      "SELECT stream.name, event.seq, event.hash FROM stream JOIN event ON event.stream_id = stream.id"
      " AND event.seq = (SELECT max(seq) FROM event WHERE stream_id = stream.id) ORDER BY stream.id");
  std::vector<StreamHead> heads;
  while (query.step()) {
    heads.push_back({query.bytes(0), {static_cast<std::uint64_t>(query.integer(1)), query.hash(2)}});
  }
  return heads;
}

std::optional<StoredEvent> EventLog::find(const std::string& key) const {
  auto reader = readers_.lease();
  return event_with_key(*reader, key);
}

StreamVerdict EventLog::verify_stream(const std::string& stream) const {
  auto reader = readers_.lease();
  Query query(*reader, "SELECT " PUMPWRIGHT_EVENT_COLUMNS
                       " FROM stream JOIN event ON event.stream_id = stream.id"
                       " WHERE stream.name = ?1 ORDER BY event.seq");
  query.bind_text(1, stream);
  ChainCheck check(stream);
  while (query.step()) {
    if (auto broken = check.next(event_of(query))) return {check.head(), std::move(broken)};
  }
  return {check.head(), std::nullopt};
}

}  // namespace pumpwright::store

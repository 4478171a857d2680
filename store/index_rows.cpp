#include "store/index_rows.h"

#include <cmath>
#include <stdexcept>

namespace pumpwright::store {
namespace {

void require_stream(const StreamRow& stream, const std::string& named) {
  if (named != stream.name)
    throw std::invalid_argument("an index row of " + named + " came with " + stream.name);
}

std::optional<std::string> search_text_of(Connection& connection, std::int64_t stream_id) {
  Query query(connection, "SELECT search FROM index_entry WHERE stream_id = ?1");
  query.bind(1, stream_id);
  if (!query.step()) return std::nullopt;
  return query.bytes(0);
}

// The search table keeps no text, so it must be told what it forgets.
void forget_words(Connection& connection, std::int64_t stream_id, const std::string& search) {
  Query(connection, "INSERT INTO index_search (index_search, rowid, search) VALUES ('delete', ?1, ?2)")
      .bind(1, stream_id)
      .bind_text(2, search)
      .run();
}

void put_entry(Connection& connection, const StreamRow& stream, const IndexEntry& entry) {
  require_stream(stream, entry.stream);
  const auto search_before = search_text_of(connection, stream.id);
  const bool same_words = search_before == entry.search;
  if (search_before && !same_words) forget_words(connection, stream.id, *search_before);
  Query(connection,
        "INSERT INTO index_entry (stream_id, sort_key, fields, search, open) VALUES (?1, ?2, ?3, ?4, ?5)"
        " ON CONFLICT (stream_id) DO UPDATE SET sort_key = excluded.sort_key, fields = excluded.fields,"
        " search = excluded.search, open = excluded.open")
      .bind(1, stream.id)
      .bind_text(2, entry.sort_key)
      .bind_bytes(3, entry.fields)
      .bind_text(4, entry.search)
      .bind(5, std::int64_t{entry.open ? 1 : 0})
      .run();
  if (same_words) return;
  Query(connection, "INSERT INTO index_search (rowid, search) VALUES (?1, ?2)")
      .bind(1, stream.id)
      .bind_text(2, entry.search)
      .run();
}

void drop_entry(Connection& connection, std::int64_t stream_id) {
  const auto search = search_text_of(connection, stream_id);
  if (!search) return;
  forget_words(connection, stream_id, *search);
  Query(connection, "DELETE FROM index_entry WHERE stream_id = ?1").bind(1, stream_id).run();
}

void put_value(Connection& connection, const StreamRow& stream, const IndexValue& value) {
  require_stream(stream, value.stream);
  if (!std::isfinite(value.number)) throw std::invalid_argument("an index value is not finite");
  Query(connection,
        "INSERT INTO index_value (stream_id, series, ref, at, number, fields) VALUES (?1, ?2, ?3, ?4, ?5, ?6)"
        " ON CONFLICT (stream_id, series, ref) DO UPDATE SET at = excluded.at, number = excluded.number,"
        " fields = excluded.fields")
      .bind(1, stream.id)
      .bind_text(2, value.series)
      .bind_text(3, value.ref)
      .bind_text(4, value.at)
      .bind(5, value.number)
      .bind_bytes(6, value.fields)
      .run();
}

void drop_value(Connection& connection, std::int64_t stream_id, const IndexChange::Dropped& dropped) {
  Query(connection, "DELETE FROM index_value WHERE stream_id = ?1 AND series = ?2 AND ref = ?3")
      .bind(1, stream_id)
      .bind_text(2, dropped.series)
      .bind_text(3, dropped.ref)
      .run();
}

}  // namespace

void change_index(Connection& connection, const StreamRow& stream, const IndexChange& change) {
  if (change.entry) put_entry(connection, stream, *change.entry);
  for (const auto& dropped : change.drop_values)
    drop_value(connection, stream.id, dropped);
  for (const auto& value : change.put_values)
    put_value(connection, stream, value);
}

void replace_stream_index(Connection& connection, const StreamRow& stream, const StreamIndex& contents) {
  Query(connection, "DELETE FROM index_value WHERE stream_id = ?1").bind(1, stream.id).run();
  if (!contents.entry) drop_entry(connection, stream.id);
  change_index(connection, stream, {contents.entry, {}, contents.values});
}

void clear_index(Connection& connection) {
  Query(connection, "DELETE FROM index_value").run();
  Query(connection, "DELETE FROM index_entry").run();
  Query(connection, "INSERT INTO index_search (index_search) VALUES ('delete-all')").run();
}

}  // namespace pumpwright::store

#include "store/index.h"

#include <algorithm>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "store/event_rows.h"
#include "store/group_commit.h"
#include "store/index_rows.h"
#include "store/reader_pool.h"
#include "store/search_expression.h"

namespace pumpwright::store {
namespace {

#define PUMPWRIGHT_ENTRY_COLUMNS \
  "stream.name, index_entry.sort_key, index_entry.fields, index_entry.search, index_entry.open"

IndexEntry entry_of(const Query& row) {
  return {row.bytes(0), row.bytes(1), row.bytes(2), row.bytes(3), row.integer(4) != 0};
}

std::vector<IndexEntry> entries_of(Query& query) {
  std::vector<IndexEntry> entries;
  while (query.step())
    entries.push_back(entry_of(query));
  return entries;
}

#define PUMPWRIGHT_VALUE_COLUMNS \
  "stream.name, index_value.series, index_value.at, index_value.ref, index_value.number, index_value.fields"

IndexValue value_of(const Query& row) {
  return {row.bytes(0), row.bytes(1), row.bytes(2), row.bytes(3), row.real(4), row.bytes(5)};
}

std::int64_t limit_of(std::size_t count_max) {
  return static_cast<std::int64_t>(
      std::min<std::uint64_t>(count_max, std::numeric_limits<std::int64_t>::max()));
}

// With its length in front, so that no two lists of parts give the same text.
void dump_part(std::string& text, std::string_view part) {
  text += fmt::format("{}:{} ", part.size(), part);
}

std::vector<std::string> stream_names(Connection& connection) {
  Query query(connection, "SELECT name FROM stream ORDER BY id");
  std::vector<std::string> names;
  while (query.step())
    names.push_back(query.bytes(0));
  return names;
}

}  // namespace

std::optional<IndexEntry> Index::entry(const std::string& stream) const {
  auto reader = readers_.lease();
  Query query(*reader,
              "SELECT " PUMPWRIGHT_ENTRY_COLUMNS
              " FROM stream JOIN index_entry ON index_entry.stream_id = stream.id WHERE stream.name = ?1");
  query.bind_text(1, stream);
  if (!query.step()) return std::nullopt;
  return entry_of(query);
}

std::optional<IndexEntry> Index::first_entry() const {
  auto reader = readers_.lease();
  Query query(*reader, "SELECT " PUMPWRIGHT_ENTRY_COLUMNS
                       " FROM index_entry JOIN stream ON stream.id = index_entry.stream_id"
                       " ORDER BY index_entry.stream_id LIMIT 1");
  if (!query.step()) return std::nullopt;
  return entry_of(query);
}

std::int64_t Index::for_each_changed(std::int64_t position,
                                     const std::function<void(const IndexEntry&)>& visit) const {
  auto reader = readers_.lease();
  const Snapshot one_moment(*reader);
  const std::int64_t now = (*reader).number("SELECT coalesce(max(id), 0) FROM event");
  Query query(*reader, "SELECT " PUMPWRIGHT_ENTRY_COLUMNS
                       " FROM index_entry JOIN stream ON stream.id = index_entry.stream_id"
                       " WHERE ?1 = 0 OR index_entry.stream_id IN (SELECT stream_id FROM event WHERE id > ?1)"
                       " ORDER BY stream.id");
  query.bind(1, position);
  while (query.step())
    visit(entry_of(query));
  return now;
}

std::vector<IndexEntry> Index::open_entries() const {
  auto reader = readers_.lease();
  Query query(*reader, "SELECT " PUMPWRIGHT_ENTRY_COLUMNS
                       " FROM index_entry JOIN stream ON stream.id = index_entry.stream_id"
                       " WHERE index_entry.open = 1 ORDER BY index_entry.sort_key, stream.name");
  return entries_of(query);
}

std::vector<IndexEntry> Index::search(const std::string& text, std::size_t count_max) const {
  const auto expression = search_expression(text);
  if (!expression) return {};
  auto reader = readers_.lease();
  // CROSS JOIN keeps the order of the tables: the search table gives rows from the last one backwards and
  // stops at the limit; nothing is sorted.
  Query query(*reader,
              "SELECT " PUMPWRIGHT_ENTRY_COLUMNS
              " FROM index_search CROSS JOIN index_entry ON index_entry.stream_id = index_search.rowid"
              " CROSS JOIN stream ON stream.id = index_entry.stream_id"
              " WHERE index_search MATCH ?1 ORDER BY index_search.rowid DESC LIMIT ?2");
  query.bind_text(1, *expression).bind(2, limit_of(count_max));
  return entries_of(query);
}

std::vector<IndexValue> Index::series(const std::string& series, std::size_t count_max) const {
  auto reader = readers_.lease();
  Query query(*reader,
              "SELECT " PUMPWRIGHT_VALUE_COLUMNS
              " FROM index_value JOIN stream ON stream.id = index_value.stream_id"
              " WHERE index_value.series = ?1"
              " ORDER BY index_value.at DESC, index_value.stream_id DESC, index_value.ref DESC LIMIT ?2");
  query.bind_text(1, series).bind(2, limit_of(count_max));
  std::vector<IndexValue> values;
  while (query.step())
    values.push_back(value_of(query));
  return values;
}

bool Index::replace(const std::string& stream, const StreamIndex& contents, const Head& expected_head) {
  bool replaced = false;
  writer_.run([&](WriteScope& scope) {
    replaced = false;
    const auto id = stream_id_of(scope.connection, stream);
    if (!id || head_of(scope.connection, *id) != expected_head) return;
    replace_stream_index(scope.connection, {stream, *id}, contents);
    replaced = true;
  });
  return replaced;
}

void Index::clear() {
  writer_.run([](WriteScope& scope) { clear_index(scope.connection); });
}

void Index::rebuild(const std::function<StreamIndex(const std::string& stream)>& make) {
  writer_.run([&](WriteScope& scope) {
    clear_index(scope.connection);
    for (const std::string& stream : stream_names(scope.connection)) {
      const auto id = stream_id_of(scope.connection, stream);
      replace_stream_index(scope.connection, {stream, *id}, make(stream));
    }
  });
}

std::string Index::dump() const {
  auto reader = readers_.lease();
  const Snapshot one_moment(*reader);
  std::string text;
  Query entries(*reader,
                "SELECT " PUMPWRIGHT_ENTRY_COLUMNS
                " FROM index_entry JOIN stream ON stream.id = index_entry.stream_id ORDER BY stream.name");
  while (entries.step()) {
    const IndexEntry entry = entry_of(entries);
    text += entry.open ? "open " : "closed ";
    for (const auto* part : {&entry.stream, &entry.sort_key, &entry.fields, &entry.search})
      dump_part(text, *part);
    text += '\n';
  }
  Query values(*reader, "SELECT " PUMPWRIGHT_VALUE_COLUMNS
                        " FROM index_value JOIN stream ON stream.id = index_value.stream_id"
                        " ORDER BY stream.name, index_value.series, index_value.ref");
  while (values.step()) {
    const IndexValue value = value_of(values);
    text += fmt::format("{:a} ", value.number);
    for (const auto* part : {&value.stream, &value.series, &value.at, &value.ref, &value.fields}) {
      dump_part(text, *part);
    }
    text += '\n';
  }
  return text;
}

}  // namespace pumpwright::store

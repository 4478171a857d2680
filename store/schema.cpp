#include "store/schema.h"

#include <array>

#include <fmt/format.h>

namespace pumpwright::store {
namespace {

constexpr const char* first_tables = R"sql(
CREATE TABLE stream (
  id INTEGER PRIMARY KEY,          -- order of beginning
  name TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE event (
  id INTEGER PRIMARY KEY,          -- order of acceptance in the whole store
  stream_id INTEGER NOT NULL REFERENCES stream (id),
  seq INTEGER NOT NULL,
  type TEXT NOT NULL,
  actor TEXT NOT NULL,
  device TEXT NOT NULL,
  device_seq INTEGER NOT NULL,
  key TEXT NOT NULL UNIQUE,
  accepted_at TEXT NOT NULL,
  payload BLOB NOT NULL,
  prev BLOB NOT NULL CHECK (length(prev) = 32),
  hash BLOB NOT NULL CHECK (length(hash) = 32),
  UNIQUE (stream_id, seq)
) STRICT;

-- REPLACE would remove a row without asking the triggers on DELETE, so what it could replace is refused before.
CREATE TRIGGER event_follows BEFORE INSERT ON event
WHEN NEW.seq IS NOT 1 + coalesce((SELECT max(seq) FROM event WHERE stream_id = NEW.stream_id), 0)
  OR EXISTS (SELECT 1 FROM event WHERE key = NEW.key) OR EXISTS (SELECT 1 FROM event WHERE id = NEW.id)
BEGIN SELECT raise(ABORT, 'events are only appended'); END;
CREATE TRIGGER event_stays BEFORE UPDATE ON event BEGIN SELECT raise(ABORT, 'events are only appended'); END;
CREATE TRIGGER event_remains BEFORE DELETE ON event BEGIN SELECT raise(ABORT, 'events are only appended'); END;
CREATE TRIGGER stream_follows BEFORE INSERT ON stream
WHEN EXISTS (SELECT 1 FROM stream WHERE name = NEW.name OR id = NEW.id)
BEGIN SELECT raise(ABORT, 'streams are only appended'); END;
CREATE TRIGGER stream_stays BEFORE UPDATE ON stream BEGIN SELECT raise(ABORT, 'streams are only appended'); END;
CREATE TRIGGER stream_remains BEFORE DELETE ON stream BEGIN SELECT raise(ABORT, 'streams are only appended'); END;

CREATE TABLE attachment (
  id INTEGER PRIMARY KEY,
  hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
  media_type TEXT NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE TRIGGER attachment_follows BEFORE INSERT ON attachment
WHEN EXISTS (SELECT 1 FROM attachment WHERE hash = NEW.hash OR id = NEW.id)
BEGIN SELECT raise(ABORT, 'attachments are only added'); END;
CREATE TRIGGER attachment_stays BEFORE UPDATE ON attachment
BEGIN SELECT raise(ABORT, 'attachments are only added'); END;
CREATE TRIGGER attachment_remains BEFORE DELETE ON attachment
BEGIN SELECT raise(ABORT, 'attachments are only added'); END;

CREATE TABLE secret (
  kind TEXT NOT NULL,
  id TEXT NOT NULL,
  bytes BLOB NOT NULL,
  expires_at_ms INTEGER,
  PRIMARY KEY (kind, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE index_entry (
  stream_id INTEGER PRIMARY KEY REFERENCES stream (id),
  sort_key TEXT NOT NULL,
  fields BLOB NOT NULL,
  search TEXT NOT NULL,
  open INTEGER NOT NULL
) STRICT;
CREATE INDEX index_entry_open ON index_entry (sort_key, stream_id) WHERE open = 1;

CREATE TABLE index_value (
  stream_id INTEGER NOT NULL REFERENCES stream (id),
  series TEXT NOT NULL,
  ref TEXT NOT NULL,
  at TEXT NOT NULL,
  number REAL NOT NULL,
  fields BLOB NOT NULL,
  PRIMARY KEY (stream_id, series, ref)
) STRICT, WITHOUT ROWID;
CREATE INDEX index_value_series ON index_value (series, at);

-- Keeps the words only; the text is in index_entry. Prefix indexes for the first letters one types.
CREATE VIRTUAL TABLE index_search USING fts5 (
  search, content = 'index_entry', content_rowid = 'stream_id', tokenize = 'unicode61 remove_diacritics 2',
  prefix = '1 2 3', columnsize = 0
);
)sql";

constexpr std::array all_steps{Migration{1, first_tables}};

int version_of(Connection& connection) {
  return static_cast<int>(connection.number("PRAGMA user_version"));
}

}  // namespace

std::span<const Migration> migrations() {
  return all_steps;
}

void refuse_other_databases(Connection& connection, std::span<const Migration> steps) {
  const int version = version_of(connection);
  const auto id = connection.number("PRAGMA application_id");
  const bool empty = version == 0 && id == 0 && connection.number("SELECT count(*) FROM sqlite_schema") == 0;
  if (!empty && id != store_application_id) {
    throw StoreError(StoreErrorCode::corrupt, "this file is a database of something else, not a store");
  }
  const int newest = steps.empty() ? 0 : steps.back().version;
  if (version > newest) {
    throw StoreError(
        StoreErrorCode::newer_database,
        fmt::format("the store was written by a newer version of this program (schema {}, this program "
                    "knows up to {}): start the newer version, or restore an older backup",
                    version, newest));
  }
}

void migrate(Connection& connection, std::span<const Migration> steps) {
  refuse_other_databases(connection, steps);
  const int newest = steps.empty() ? 0 : steps.back().version;
  if (version_of(connection) == newest) return;
  connection.execute("BEGIN IMMEDIATE");
  try {
    const int version = version_of(connection);  // another process may have been quicker
    for (const Migration& step : steps) {
      if (step.version <= version) continue;
      connection.execute(step.sql);
      connection.execute(fmt::format("PRAGMA user_version = {}", step.version).c_str());
    }
    connection.execute(fmt::format("PRAGMA application_id = {}", store_application_id).c_str());
    connection.execute("COMMIT");
  } catch (...) {
    if (connection.in_transaction()) connection.execute("ROLLBACK");
    throw;
  }
}

void require_current_schema(Connection& connection) {
  refuse_other_databases(connection, migrations());
  const int newest = migrations().back().version;
  const int version = version_of(connection);
  if (version != newest) {
    throw StoreError(StoreErrorCode::corrupt,
                     fmt::format("the file holds schema {} where {} is needed", version, newest));
  }
}

}  // namespace pumpwright::store

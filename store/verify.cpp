#include "store/verify.h"

#include <utility>

#include <fmt/format.h>

#include "store/event_rows.h"
#include "store/reader_pool.h"

namespace pumpwright::store {
namespace {

constexpr std::size_t problems_max = 100;

void add_problem(StoreReport& report, std::string problem) {
  if (report.problems.size() < problems_max) report.problems.push_back(std::move(problem));
}

void verify_structure(Connection& connection, StoreReport& report) {
  Query structure(connection, "PRAGMA integrity_check(100)");
  while (structure.step()) {
    std::string line = structure.bytes(0);
    if (line != "ok") add_problem(report, "structure: " + std::move(line));
  }
  Query references(connection, "PRAGMA foreign_key_check");
  while (references.step()) {
    add_problem(report, fmt::format("structure: a row of {} refers to nothing", references.bytes(0)));
  }
}

void end_stream(StoreReport& report, const std::string& stream, const Head& head, bool broken) {
  ++report.streams;
  if (head.seq == 0 && !broken) add_problem(report, fmt::format("stream {} has no event", stream));
}

// After a break the rest of that stream is counted but not looked at: each of its events hangs on the broken
// one.
void verify_chain(Connection& connection, StoreReport& report, const std::string& stream) {
  Query query(connection, "SELECT " PUMPWRIGHT_EVENT_COLUMNS
                          " FROM stream JOIN event ON event.stream_id = stream.id"
                          " WHERE stream.name = ?1 ORDER BY event.seq");
  query.bind_text(1, stream);
  ChainCheck check(stream);
  bool broken = false;
  while (query.step()) {
    ++report.events;
    if (broken) continue;
    if (const auto found = check.next(event_of(query))) {
      broken = true;
      add_problem(report, fmt::format("stream {}: event {} (key {}) {}", stream, found->seq, found->key,
                                      text_of(found->what)));
    }
  }
  end_stream(report, stream, check.head(), broken);
}

void verify_chains(Connection& connection, StoreReport& report) {
  Query streams(connection, "SELECT name FROM stream ORDER BY id");
  while (streams.step())
    verify_chain(connection, report, streams.bytes(0));
}

void verify_attachments(Connection& connection, StoreReport& report) {
  Query query(connection, "SELECT hash, bytes FROM attachment ORDER BY id");
  while (query.step()) {
    ++report.attachments;
    const Hash hash = query.hash(0);
    if (blake2b_256(query.bytes(1)) != hash) {
      add_problem(report, fmt::format("attachment {} is not what was stored", to_hex(hash)));
    }
  }
}

}  // namespace

StoreReport verify_all(Connection& connection) {
  StoreReport report;
  for (const auto part : {verify_structure, verify_chains, verify_attachments}) {
    try {
      const Snapshot one_moment(connection);
      part(connection, report);
    } catch (const StoreError& error) {
      if (error.code() != StoreErrorCode::corrupt) throw;
      add_problem(report, fmt::format("structure: {}", error.what()));
    }
  }
  return report;
}

}  // namespace pumpwright::store

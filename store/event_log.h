// The log of events: append and read, nothing else. An event that was acknowledged is on the disk and never
// changes. All functions may be called from many threads; all throw StoreError when the store can not.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "store/event.h"
#include "store/event_hash.h"
#include "store/index.h"

namespace pumpwright::store {

// Makes the change in the index that goes with an append. Called inside its transaction with the events of it
// that are new, in order, never with none. Must be short, must not call the store, and may be called again
// when the transaction had to be repeated. What it throws undoes this append and comes out of it.
using IndexChangeOf = std::function<IndexChange(std::span<const StoredEvent> appended)>;

struct Append {
  std::string stream;
  std::vector<NewEvent> events;       // 1 … events_per_append_max
  std::optional<Head> expected_head;  // refuse when the stream stands elsewhere
  IndexChangeOf index_change;         // may be empty
};

// Every event is stored now, one entry for each handed in.
struct Appended {
  std::vector<StoredEvent> events;
  std::size_t fresh = 0;  // how many are new; the others were there already (same stream, type and payload)
  Head head;              // of the stream afterwards
};
// The stream does not stand at the expected head. Not looked at when all events are there already.
struct HeadMoved {
  Head found;
};
// The key stands for something else already.
struct KeyReused {
  std::string key;
};
// Outside the bounds in event.h.
struct Malformed {
  std::string field;  // "payload", "key" …
  std::string valid;  // what would be
};
// Anything but Appended means that nothing was changed.
using AppendResult = std::variant<Appended, HeadMoved, KeyReused, Malformed>;

struct StreamHead {
  std::string stream;
  Head head;

  bool operator==(const StreamHead&) const = default;
};

struct StreamVerdict {
  Head head;                         // as far as the chain holds
  std::optional<ChainBreak> broken;  // nothing: the whole chain holds
};

// Called after each commit with all events it made durable, in the order of acceptance, from one of the
// appending threads and before any of these appends returns. Must be quick, must not throw and must not
// append.
using AppendListener = std::function<void(std::span<const StoredEvent>)>;

class EventLog {
 public:
  EventLog(GroupCommit& writer, ReaderPool& readers, const std::function<std::int64_t()>& now_ms)
      : writer_(writer), readers_(readers), now_ms_(now_ms) {}

  // All or nothing. Returns after the events are synced to the disk.
  AppendResult append(const Append& append);
  // Several, one result each in their order, with one sync of the disk for all: each all or nothing by
  // itself, and what its index_change throws undoes all of them.
  std::vector<AppendResult> append_together(std::span<const Append> appends);
  // Replaces the listener; an empty one listens to nothing.
  void set_listener(AppendListener listener);

  // Events with seq >= from_seq in order. Empty for a stream that is not there.
  std::vector<StoredEvent> read(const std::string& stream, std::uint64_t from_seq = 1,
                                std::size_t count_max = SIZE_MAX) const;
  // {0, zeros} for a stream that is not there.
  Head head(const std::string& stream) const;
  // In the order of their beginning.
  std::vector<StreamHead> streams() const;
  std::optional<StoredEvent> find(const std::string& key) const;
  // Reads the stream and computes every hash again.
  StreamVerdict verify_stream(const std::string& stream) const;

 private:
  GroupCommit& writer_;
  ReaderPool& readers_;
  const std::function<std::int64_t()>& now_ms_;
};

}  // namespace pumpwright::store

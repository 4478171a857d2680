// Derived tables: one entry a stream for lists and search, and values by series. They follow from the log,
// can be thrown away and made again, and hold bytes the store does not understand.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "store/event.h"

namespace pumpwright::store {

class GroupCommit;
class ReaderPool;

// What is known of a stream without reading it.
struct IndexEntry {
  std::string stream;
  std::string sort_key;  // order of open entries, bytewise
  std::string fields;    // JSON bytes
  std::string search;    // words it is found by
  bool open = false;

  bool operator==(const IndexEntry&) const = default;
};

// One number in a series that runs across streams. (stream, series, ref) is its identity.
struct IndexValue {
  std::string stream;
  std::string series;
  std::string at;       // when, ISO 8601; order in the series
  std::string ref;      // what it is in its stream
  double number = 0.0;  // finite
  std::string fields;   // JSON bytes

  bool operator==(const IndexValue&) const = default;
};

// What an append changes in the index of its stream. `stream` inside entry and values must be that stream.
struct IndexChange {
  struct Dropped {
    std::string series;
    std::string ref;
  };
  std::optional<IndexEntry> entry;     // takes the place of the entry that stands
  std::vector<Dropped> drop_values;    // done before put_values
  std::vector<IndexValue> put_values;  // adds, or replaces the value of the same identity
};

// Everything the index holds about one stream.
struct StreamIndex {
  std::optional<IndexEntry> entry;
  std::vector<IndexValue> values;
};

class Index {
 public:
  Index(GroupCommit& writer, ReaderPool& readers) : writer_(writer), readers_(readers) {}

  std::optional<IndexEntry> entry(const std::string& stream) const;
  // Of the stream that began first; nothing when there is none.
  std::optional<IndexEntry> first_entry() const;
  // Visits the entries of all streams to which something was appended after `position`, in the order in which
  // the streams began, and gives the position up to which that holds: what to ask with next time. 0: all of
  // them. What `replace` and the like did in between is not seen.
  std::int64_t for_each_changed(std::int64_t position,
                                const std::function<void(const IndexEntry&)>& visit) const;
  // By sort_key, then by stream.
  std::vector<IndexEntry> open_entries() const;
  // Entries in which every word of the text begins some word of `search`; case and accents do not matter.
  // Marks split words ("J-104" finds "J-1042"). The stream begun last comes first. Nothing for a text without
  // letter or digit.
  std::vector<IndexEntry> search(const std::string& text, std::size_t count_max) const;
  // Values of a series, newest `at` first.
  std::vector<IndexValue> series(const std::string& series, std::size_t count_max) const;

  // Puts the contents in the place of all that is held about the stream. False, and nothing done, when the
  // stream has another head than expected.
  bool replace(const std::string& stream, const StreamIndex& contents, const Head& expected_head);
  void clear();
  // Clears and makes everything again in one transaction: readers see the old index until it is done, appends
  // wait. `make` is asked once for each stream, in the order of their beginning, and may read events.
  void rebuild(const std::function<StreamIndex(const std::string& stream)>& make);

  // All of it as one text, in an order that does not depend on how it came about. Two indexes are equal when
  // their dumps are.
  std::string dump() const;

 private:
  GroupCommit& writer_;
  ReaderPool& readers_;
};

}  // namespace pumpwright::store

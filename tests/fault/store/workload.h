// What the fault tests make the store do, and what they demand of it afterwards.
#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "store/store.h"
#include "tests/fault/store/disk_model.h"

namespace pumpwright::store {

// What the store was asked and what it acknowledged.
struct Ledger {
  std::vector<std::vector<std::string>> attempted;  // the keys of each append
  std::vector<StoredEvent> acknowledged;
  std::optional<std::string> secret_acknowledged;  // last value put and acknowledged
  std::set<std::string> secrets_attempted;
  std::vector<std::string> attachments_acknowledged;
  std::set<StoreErrorCode> errors;
};

// The log is moved into the file every few pages, so that a short workload meets many checkpoints.
StoreOptions fault_options();

// Appends to three streams with index changes, reads, puts secrets and an attachment. Goes on after an error.
// `round` makes the keys differ from those of other calls.
void work(Store& store, Ledger& ledger, int round);

// Opens, works, closes. An error while opening goes into the ledger too.
void open_and_work(const std::filesystem::path& file, Ledger& ledger, int round);

// Everything in the store that does not fit the ledger, one line each: damage, an acknowledged event that is
// missing or differs, half an append, an index that does not fit its stream, a store that takes nothing any
// more.
std::vector<std::string> findings(const std::filesystem::path& file, const Ledger& ledger);

}  // namespace pumpwright::store

// One shop's memory in one SQLite file: the log, its derived index, secrets and attachments. Start reading
// here; the parts have a header each. Nothing above this folder knows which database it is.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "store/attachments.h"
#include "store/event_log.h"
#include "store/index.h"
#include "store/secrets.h"
#include "store/store_error.h"

namespace pumpwright::store {

struct StoreOptions {
  std::function<std::int64_t()> now_ms;  // Unix time in milliseconds; empty: the system's clock
  std::size_t readers_max = 8;           // connections that read at the same time, 1 … 64
  int busy_timeout_ms = 10'000;          // how long to wait for another process
  int checkpoint_pages = 1000;  // pages in the write-ahead log before they are moved into the file, >= 1
};

// What a check of a whole store found.
struct StoreReport {
  std::uint64_t streams = 0;
  std::uint64_t events = 0;
  std::uint64_t attachments = 0;
  std::vector<std::string> problems;  // one line each, at most 100; empty: all holds

  bool ok() const { return problems.empty(); }
};

struct BackupReport {
  Hash hash{};              // BLAKE2b-256 of the resulting file
  std::uint64_t bytes = 0;  // its length
  StoreReport contents;     // of the copy, checked after it was written
};

class Store {
 public:
  // Opens the file or makes it (its directory must be there), brings its schema up to date. Refuses with
  // StoreError: a newer schema, a file that is no store, a disk that can not be written.
  static std::unique_ptr<Store> open(const std::filesystem::path& file, StoreOptions options = {});
  ~Store();  // nothing may be running; moves the write-ahead log into the file
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;

  EventLog& events();
  Index& index();
  Secrets& secrets();
  Attachments& attachments();

  // Structure of the file, every chain, every attachment, the search index. Reads everything; writers go on.
  StoreReport verify() const;
  // Copies the store as it stands into one new file while writers go on, syncs and verifies it. StoreError
  // exists when something is there already; corrupt, and no file left, when the copy does not verify.
  BackupReport backup(const std::filesystem::path& to) const;

 private:
  class Impl;
  explicit Store(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

// Checks a store nobody has open, without changing it.
StoreReport verify_store_file(const std::filesystem::path& file);

// Puts a backup in place as `to`. The copy is verified before it gets its name: chains, structure, and the
// hash when one is given. StoreError exists when `to` is there and not empty (nothing is overwritten),
// corrupt when it does not verify.
BackupReport restore_backup(const std::filesystem::path& backup, const std::filesystem::path& to,
                            const std::optional<Hash>& expected_hash = std::nullopt);

// BLAKE2b-256 of a file's bytes. StoreError io when it can not be read.
Hash file_hash(const std::filesystem::path& file);

}  // namespace pumpwright::store

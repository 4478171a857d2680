// Connections that only read, handed out one to a thread. Bounded, so that many slow readers wait for each
// other instead of using up the machine; none of them ever holds up the writer. Internal to this folder.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include "store/connection.h"

namespace pumpwright::store {

class ReaderPool {
 public:
  ReaderPool(ConnectionSettings settings, std::size_t readers_max)
      : settings_(std::move(settings)), readers_max_(readers_max) {
    idle_.reserve(readers_max);
  }

  // A connection for as long as this lives.
  class Lease {
   public:
    Lease(ReaderPool& pool, std::unique_ptr<Connection> connection)
        : pool_(pool), connection_(std::move(connection)) {}
    ~Lease() { pool_.give_back(std::move(connection_)); }
    Lease(const Lease&) = delete;
    Lease& operator=(const Lease&) = delete;

    Connection& operator*() { return *connection_; }

   private:
    ReaderPool& pool_;
    std::unique_ptr<Connection> connection_;
  };

  // Waits for a free one; StoreError busy after half a minute.
  Lease lease();

 private:
  void give_back(std::unique_ptr<Connection> connection);

  const ConnectionSettings settings_;
  const std::size_t readers_max_;
  std::mutex mutex_;
  std::condition_variable one_is_free_;
  std::vector<std::unique_ptr<Connection>> idle_;
  std::size_t opened_ = 0;
};

// Everything read while this lives is of one moment.
class Snapshot {
 public:
  explicit Snapshot(Connection& connection) : connection_(connection) { Query(connection_, "BEGIN").run(); }
  ~Snapshot();
  Snapshot(const Snapshot&) = delete;
  Snapshot& operator=(const Snapshot&) = delete;

 private:
  Connection& connection_;
};

}  // namespace pumpwright::store

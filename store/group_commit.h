// The one way to write. Threads that write at the same time share one transaction and so one sync of the
// disk: the first to come leads, takes along everybody who waits, commits, and hands the lead on. Internal to
// this folder.
#pragma once

#include <condition_variable>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <span>
#include <vector>

#include "store/connection.h"
#include "store/event.h"

namespace pumpwright::store {

// How much is in one transaction, and how many threads may wait before the next one is told that the store is
// busy.
inline constexpr std::size_t works_per_group_max = 128;
inline constexpr std::size_t works_waiting_max = 4096;

// What a piece of work sees.
struct WriteScope {
  Connection& connection;
  std::vector<StoredEvent>& accepted;  // events it adds are given to the listener after the commit
};

// Changes the database. What it throws undoes what it did and nothing else. May be run again when the shared
// transaction failed, so it sets its results anew each time.
using Work = std::function<void(WriteScope&)>;

class GroupCommit {
 public:
  using Listener = std::function<void(std::span<const StoredEvent>)>;

  explicit GroupCommit(Connection connection) : connection_(std::move(connection)) {}

  // Returns after the work's transaction was committed and synced, or throws what stood in the way: then
  // nothing of it is in the store.
  void run(const Work& work);
  void set_listener(Listener listener);
  // How many wait for the next transaction.
  std::size_t waiting();

 private:
  struct Waiting {
    const Work* work = nullptr;
    bool done = false;
    std::exception_ptr error;
    std::condition_variable turn;
  };

  void lead(std::unique_lock<std::mutex>& lock);
  void commit(std::span<Waiting* const> group);
  enum class Savepoints { with, without };
  bool commit_as_one(std::span<Waiting* const> group, Savepoints savepoints);
  void run_in_savepoint(Waiting& waiting);
  void end_transaction() noexcept;

  std::mutex mutex_;  // guards queue_, leading_, listener_ and the flags of those who wait
  std::deque<Waiting*> queue_;
  bool leading_ = false;
  Listener listener_;
  // Touched by the leader alone.
  Connection connection_;
  std::vector<StoredEvent> accepted_;
};

}  // namespace pumpwright::store

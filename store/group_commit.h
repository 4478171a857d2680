// The one way to write. Threads that write at the same time share one transaction and so one sync of the
// disk: the first to come leads, takes along everybody who waits, commits, and hands the lead on. Internal to
// this folder.
#pragma once

#include <condition_variable>
#include <deque>
#include <exception>
#include <functional>
#include <memory>
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
  // Lets one thread wait until another gives it its turn. Shared by both, since who got its turn may be gone
  // before the other has let go.
  class Turn {
   public:
    void give();
    void await();

   private:
    std::mutex mutex_;
    std::condition_variable given_;
    bool is_given_ = false;
  };
  struct Waiting {
    const Work* work = nullptr;
    bool done = false;  // when its turn comes: done by another, or to lead
    std::exception_ptr error;
    std::shared_ptr<Turn> turn = std::make_shared<Turn>();
  };

  void lead();
  void commit(std::span<Waiting* const> group);
  enum class Savepoints { with, without };
  bool commit_as_one(std::span<Waiting* const> group, Savepoints savepoints);
  void run_in_savepoint(Waiting& waiting);
  void end_transaction() noexcept;

  std::mutex mutex_;  // guards queue_, leading_ and listener_
  std::deque<Waiting*> queue_;
  bool leading_ = false;  // somebody leads, or was given the lead
  Listener listener_;
  // Touched by the leader alone.
  Connection connection_;
  std::vector<StoredEvent> accepted_;
};

}  // namespace pumpwright::store

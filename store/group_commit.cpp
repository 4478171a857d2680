#include "store/group_commit.h"

#include <algorithm>
#include <cassert>
#include <iterator>
#include <utility>

namespace pumpwright::store {
namespace {

// Set while this thread leads a group: writing from inside a write would wait for itself.
thread_local bool inside_a_write = false;

}  // namespace

void GroupCommit::set_listener(Listener listener) {
  const std::scoped_lock lock(mutex_);
  listener_ = std::move(listener);
}

std::size_t GroupCommit::waiting() {
  const std::scoped_lock lock(mutex_);
  return queue_.size();
}

void GroupCommit::run(const Work& work) {
  assert(!inside_a_write && "the store was called from a listener or an index change");
  Waiting waiting;
  waiting.work = &work;
  {
    const std::scoped_lock lock(mutex_);
    if (queue_.size() >= works_waiting_max)
      throw StoreError(StoreErrorCode::busy, "too many writes wait already");
    queue_.push_back(&waiting);
    if (!leading_) {
      leading_ = true;
      waiting.turn->give();
    }
  }
  waiting.turn->await();
  if (!waiting.done) lead();
  if (waiting.error) std::rethrow_exception(waiting.error);
}

// By the first in the queue.
void GroupCommit::lead() {
  std::vector<Waiting*> group;
  Listener listener;
  {
    const std::scoped_lock lock(mutex_);
    const auto count = static_cast<std::ptrdiff_t>(std::min(queue_.size(), works_per_group_max));
    group.assign(queue_.begin(), queue_.begin() + count);
    queue_.erase(queue_.begin(), queue_.begin() + count);
    listener = listener_;
  }

  inside_a_write = true;
  accepted_.clear();
  commit(group);
  if (listener && !accepted_.empty()) listener(accepted_);
  inside_a_write = false;

  std::shared_ptr<Turn> next;
  {
    const std::scoped_lock lock(mutex_);
    leading_ = !queue_.empty();
    if (leading_) next = queue_.front()->turn;
  }
  // Outside the lock, which those who wake would otherwise wait for at once.
  for (Waiting* waiting : group) {
    const auto turn = waiting->turn;  // its owner may be gone once it is done
    waiting->done = true;
    turn->give();
  }
  if (next) next->give();
}

void GroupCommit::Turn::give() {
  {
    const std::scoped_lock lock(mutex_);
    is_given_ = true;
  }
  given_.notify_one();
}

void GroupCommit::Turn::await() {
  std::unique_lock lock(mutex_);
  given_.wait(lock, [this] { return is_given_; });
}

// Three ways, each only when the one before failed. Without savepoints, since a work that throws is rare and
// a savepoint costs every work a copy of the pages it changes. With them, so that the one that throws takes
// nothing along. Each alone, when the transaction fails as a whole (a full disk, say): the small one may
// still fit.
void GroupCommit::commit(std::span<Waiting* const> group) {
  if (commit_as_one(group, Savepoints::without)) return;
  if (group.size() == 1) return;
  if (commit_as_one(group, Savepoints::with)) return;
  std::vector<StoredEvent> all;
  for (Waiting* const& alone : group) {
    commit_as_one(std::span(&alone, 1), Savepoints::without);
    std::move(accepted_.begin(), accepted_.end(), std::back_inserter(all));
  }
  accepted_ = std::move(all);
}

// False when nothing of the group is in the store; then each of it has the error.
bool GroupCommit::commit_as_one(std::span<Waiting* const> group, Savepoints savepoints) {
  accepted_.clear();
  for (Waiting* waiting : group)
    waiting->error = nullptr;
  try {
    // IMMEDIATE: what is read before writing must not be changed by another process in between.
    Query(connection_, "BEGIN IMMEDIATE").run();
    WriteScope scope{connection_, accepted_};
    for (Waiting* waiting : group) {
      if (savepoints == Savepoints::with) {
        run_in_savepoint(*waiting);
      } else {
        (*waiting->work)(scope);
      }
    }
    Query(connection_, "COMMIT").run();
    return true;
  } catch (...) {
    end_transaction();
    accepted_.clear();
    for (Waiting* waiting : group)
      waiting->error = std::current_exception();
    return false;
  }
}

void GroupCommit::run_in_savepoint(Waiting& waiting) {
  Query(connection_, "SAVEPOINT one_work").run();
  const std::size_t accepted_before = accepted_.size();
  WriteScope scope{connection_, accepted_};
  try {
    (*waiting.work)(scope);
  } catch (...) {
    // SQLite itself gives up the whole transaction after some errors; then it is everybody's.
    if (!connection_.in_transaction()) throw;
    waiting.error = std::current_exception();
    accepted_.erase(accepted_.begin() + static_cast<std::ptrdiff_t>(accepted_before), accepted_.end());
    Query(connection_, "ROLLBACK TO one_work").run();
  }
  Query(connection_, "RELEASE one_work").run();
}

void GroupCommit::end_transaction() noexcept {
  try {
    if (connection_.in_transaction()) Query(connection_, "ROLLBACK").run();
  } catch (const std::exception&) {
    // SQLite has ended the transaction by itself, or the next BEGIN will say what is wrong.
    return;
  }
}

}  // namespace pumpwright::store

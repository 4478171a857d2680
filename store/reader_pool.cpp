#include "store/reader_pool.h"

#include <chrono>

namespace pumpwright::store {

ReaderPool::Lease ReaderPool::lease() {
  std::unique_lock lock(mutex_);
  const auto free = [&] { return !idle_.empty() || opened_ < readers_max_; };
  if (!one_is_free_.wait_for(lock, std::chrono::seconds(30), free)) {
    throw StoreError(StoreErrorCode::busy, "all readers of the store are taken");
  }
  if (!idle_.empty()) {
    auto connection = std::move(idle_.back());
    idle_.pop_back();
    return {*this, std::move(connection)};
  }
  ++opened_;
  lock.unlock();
  try {
    return {*this, std::make_unique<Connection>(settings_)};
  } catch (...) {
    lock.lock();
    --opened_;
    one_is_free_.notify_one();
    throw;
  }
}

void ReaderPool::give_back(std::unique_ptr<Connection> connection) {
  const std::scoped_lock lock(mutex_);
  idle_.push_back(std::move(connection));
  one_is_free_.notify_one();
}

Snapshot::~Snapshot() {
  try {
    if (connection_.in_transaction()) Query(connection_, "ROLLBACK").run();
  } catch (const StoreError&) {
    // Nothing was written; the next BEGIN on this connection says what is wrong.
    return;
  }
}

}  // namespace pumpwright::store

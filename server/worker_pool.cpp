#include "server/worker_pool.h"

#include <utility>

namespace pumpwright::server {

WorkerPool::WorkerPool(Size size) : waiting_max_(size.waiting_max) {
  threads_.reserve(size.threads);
  for (std::size_t i = 0; i < size.threads; ++i)
    threads_.emplace_back([this] { work_until_finished(); });
}

WorkerPool::~WorkerPool() {
  finish();
}

bool WorkerPool::try_post(std::function<void()> work) {
  {
    const std::lock_guard lock(mutex_);
    if (finishing_ || waiting_.size() >= waiting_max_) return false;
    waiting_.push_back(std::move(work));
  }
  news_.notify_one();
  return true;
}

void WorkerPool::finish() {
  {
    const std::lock_guard lock(mutex_);
    finishing_ = true;
  }
  news_.notify_all();
  for (auto& thread : threads_)
    thread.join();
  threads_.clear();
}

void WorkerPool::work_until_finished() {
  for (;;) {
    std::function<void()> work;
    {
      std::unique_lock lock(mutex_);
      news_.wait(lock, [this] { return finishing_ || !waiting_.empty(); });
      if (waiting_.empty()) return;
      work = std::move(waiting_.front());
      waiting_.pop_front();
    }
    work();
  }
}

}  // namespace pumpwright::server

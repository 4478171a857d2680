#include "cli/thread_executor.h"

#include <algorithm>
#include <cassert>

namespace pumpwright {

ThreadExecutor::ThreadExecutor(unsigned threads) {
  assert(threads >= 1 && threads <= threads_max);
  threads_.reserve(threads - 1);
  for (unsigned i = 1; i < threads; ++i)
    threads_.emplace_back([this](const std::stop_token& stop) { serve(stop); });
}

ThreadExecutor::~ThreadExecutor() {
  for (auto& thread : threads_)
    thread.request_stop();
}

unsigned ThreadExecutor::threads_of_this_machine() {
  return std::clamp(std::thread::hardware_concurrency(), 1U, threads_max);
}

void ThreadExecutor::run(std::size_t count, const std::function<void(std::size_t)>& body) {
  std::unique_lock lock(mutex_);
  assert(work_.body == nullptr);
  work_ = Work{};
  work_.body = &body;
  work_.count = count;
  work_came_.notify_all();
  take_turns(lock);
  work_ended_.wait(lock, [this] { return work_.running == 0; });
  const auto failure = work_.failure;
  work_ = Work{};
  lock.unlock();
  if (failure) std::rethrow_exception(failure);
}

void ThreadExecutor::serve(const std::stop_token& stop) {
  std::unique_lock lock(mutex_);
  while (work_came_.wait(lock, stop, [this] { return work_left(); }))
    take_turns(lock);
}

void ThreadExecutor::take_turns(std::unique_lock<std::mutex>& lock) {
  while (work_left()) {
    const std::size_t mine = work_.next++;
    ++work_.running;
    const auto& body = *work_.body;
    lock.unlock();
    std::exception_ptr failure;
    try {
      body(mine);
    } catch (...) {
      failure = std::current_exception();
    }
    lock.lock();
    if (failure && (!work_.failure || mine < work_.failed_at)) {
      work_.failure = failure;
      work_.failed_at = mine;
    }
    if (work_.failure) work_.next = work_.count;
    if (--work_.running == 0) work_ended_.notify_one();
  }
}

}  // namespace pumpwright

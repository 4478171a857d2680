// Runs the engine's blocks of work on the processors of this machine.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

#include "engine/executor.h"

namespace pumpwright {

// A fixed number of threads that live as long as the executor; the calling thread works along with them. One
// `run` at a time: a body must not call `run` of its own executor (asserted).
class ThreadExecutor final : public Executor {
 public:
  static constexpr unsigned threads_max = 256;

  // `threads` in all, the caller's included: 1 to threads_max (asserted).
  explicit ThreadExecutor(unsigned threads);
  ~ThreadExecutor() override;
  ThreadExecutor(const ThreadExecutor&) = delete;
  ThreadExecutor& operator=(const ThreadExecutor&) = delete;

  // As many threads as this machine runs at once, 1 to threads_max.
  static unsigned threads_of_this_machine();

  // After the first exception no new body is begun; of the exceptions caught, the one of the lowest number is
  // rethrown.
  void run(std::size_t count, const std::function<void(std::size_t)>& body) override;

 private:
  struct Work {
    const std::function<void(std::size_t)>* body = nullptr;
    std::size_t count = 0;
    std::size_t next = 0;
    std::size_t running = 0;
    std::size_t failed_at = 0;
    std::exception_ptr failure;
  };

  void serve(const std::stop_token& stop);
  void take_turns(std::unique_lock<std::mutex>& lock);  // called and left with the lock held
  bool work_left() const { return work_.body != nullptr && work_.next < work_.count; }

  std::mutex mutex_;
  std::condition_variable_any work_came_;
  std::condition_variable work_ended_;
  Work work_;
  std::vector<std::jthread> threads_;  // last, so that they end before what they use
};

}  // namespace pumpwright

// A fixed number of threads that take work from a bounded queue, in order.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace pumpwright::server {

class WorkerPool {
 public:
  struct Size {
    std::size_t threads = 1;
    std::size_t waiting_max = 64;
  };

  explicit WorkerPool(Size size);
  ~WorkerPool();  // finish()
  WorkerPool(const WorkerPool&) = delete;
  WorkerPool& operator=(const WorkerPool&) = delete;

  // False when the queue is full or the pool is finishing: the work will not be done. `work` must not throw.
  bool try_post(std::function<void()> work);

  // Does what waits, takes nothing more, ends the threads.
  void finish();

 private:
  void work_until_finished();

  std::size_t waiting_max_;
  std::mutex mutex_;
  std::condition_variable news_;
  std::deque<std::function<void()>> waiting_;
  bool finishing_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace pumpwright::server

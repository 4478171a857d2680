// An executor with real threads, for tests and benchmarks: shows that results do not depend on how many there
// are.
#pragma once

#include <atomic>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

#include "engine/executor.h"

namespace pumpwright::testing {

class ThreadExecutor final : public Executor {
 public:
  explicit ThreadExecutor(std::size_t threads) : threads_(threads) {}

  void run(std::size_t count, const std::function<void(std::size_t)>& body) override {
    std::atomic<std::size_t> next{0};
    std::mutex guard;
    std::exception_ptr first_error;
    const auto work = [&] {
      for (std::size_t i = next++; i < count; i = next++) {
        try {
          body(i);
        } catch (...) {
          const std::lock_guard lock(guard);
          if (!first_error) first_error = std::current_exception();
        }
      }
    };
    {
      std::vector<std::jthread> others;
      for (std::size_t t = 1; t < threads_; ++t)
        others.emplace_back(work);
      work();
    }
    if (first_error) std::rethrow_exception(first_error);
  }

 private:
  std::size_t threads_;
};

// Runs the blocks last to first, on the calling thread.
class BackwardExecutor final : public Executor {
 public:
  void run(std::size_t count, const std::function<void(std::size_t)>& body) override {
    for (std::size_t i = count; i > 0; --i)
      body(i - 1);
  }
};

}  // namespace pumpwright::testing

// What the engine is handed when work may run in parallel: it never makes a thread of its own.
#pragma once

#include <cstddef>
#include <functional>

namespace pumpwright {

// Runs `body(0) … body(count-1)` in any order, possibly at once, and returns when all are done. An exception
// from a body is rethrown after the others have ended. Callers cut their work into blocks whose size does not
// depend on the number of threads and reduce the blocks' results in order, so the answer is the same for
// every executor.
class Executor {
 public:
  virtual ~Executor() = default;
  virtual void run(std::size_t count, const std::function<void(std::size_t)>& body) = 0;
};

// One block after another on the calling thread.
class SerialExecutor final : public Executor {
 public:
  void run(std::size_t count, const std::function<void(std::size_t)>& body) override {
    for (std::size_t i = 0; i < count; ++i)
      body(i);
  }
};

}  // namespace pumpwright

#include "cli/thread_executor.h"

#include <atomic>
#include <numeric>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

TEST(ThreadExecutor, RunsEveryBodyOnce) {
  for (const unsigned threads : {1U, 2U, 7U}) {
    ThreadExecutor executor(threads);
    std::vector<std::atomic<int>> runs(1000);
    executor.run(runs.size(), [&](std::size_t i) { ++runs[i]; });
    for (const auto& times : runs)
      EXPECT_EQ(times.load(), 1);
  }
}

TEST(ThreadExecutor, HasNothingToDoForNoBodies) {
  ThreadExecutor executor(3);
  executor.run(0, [](std::size_t) { FAIL() << "there was no body to run"; });
}

TEST(ThreadExecutor, IsUsedAgainAfterEachRun) {
  ThreadExecutor executor(4);
  std::atomic<std::size_t> sum{0};
  for (int round = 0; round < 200; ++round)
    executor.run(10, [&](std::size_t i) { sum += i; });
  EXPECT_EQ(sum.load(), 200U * 45U);
}

TEST(ThreadExecutor, NeverUsesMoreThreadsThanItWasGiven) {
  ThreadExecutor executor(3);
  std::mutex mutex;
  std::set<std::thread::id> seen;
  executor.run(500, [&](std::size_t) {
    const std::lock_guard lock(mutex);
    seen.insert(std::this_thread::get_id());
  });
  EXPECT_LE(seen.size(), 3U);
}

TEST(ThreadExecutor, RethrowsTheExceptionOfABody) {
  ThreadExecutor executor(4);
  EXPECT_THROW(executor.run(100,
                            [](std::size_t i) {
                              if (i == 37) throw std::runtime_error("body 37");
                            }),
               std::runtime_error);
}

TEST(ThreadExecutor, RethrowsTheOneOfTheLowestNumberWhenSeveralFail) {
  ThreadExecutor executor(4);
  std::atomic<int> waiting{0};
  std::string caught;
  try {
    // All four are under way before any of them fails.
    executor.run(4, [&](std::size_t i) {
      ++waiting;
      while (waiting.load() < 4)
        std::this_thread::yield();
      throw std::runtime_error(std::to_string(i));
    });
  } catch (const std::runtime_error& error) {
    caught = error.what();
  }
  EXPECT_EQ(caught, "0");
}

TEST(ThreadExecutor, BeginsNoNewBodyAfterAFailureAndWorksAgainAfterwards) {
  ThreadExecutor executor(1);
  std::size_t begun = 0;
  EXPECT_THROW(executor.run(100,
                            [&](std::size_t i) {
                              ++begun;
                              if (i == 3) throw std::runtime_error("stop");
                            }),
               std::runtime_error);
  EXPECT_EQ(begun, 4U);
  executor.run(5, [&](std::size_t) { ++begun; });
  EXPECT_EQ(begun, 9U);
}

TEST(ThreadExecutor, KnowsAtLeastOneThreadOnEveryMachine) {
  EXPECT_GE(ThreadExecutor::threads_of_this_machine(), 1U);
  EXPECT_LE(ThreadExecutor::threads_of_this_machine(), ThreadExecutor::threads_max);
}

}  // namespace
}  // namespace pumpwright

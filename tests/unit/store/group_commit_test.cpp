#include "store/group_commit.h"

#include <atomic>
#include <latch>
#include <map>
#include <thread>

#include <sqlite3.h>

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

constexpr int threads = 16;
constexpr int appends_each = 20;

std::string key_of(int thread, int i) {
  return "t" + std::to_string(thread) + "-" + std::to_string(i);
}

void on_all_threads(const std::function<void(int thread)>& work) {
  std::latch start(threads);
  std::vector<std::thread> running;
  running.reserve(threads);
  for (int t = 0; t < threads; ++t) {
    running.emplace_back([&, t] {
      start.arrive_and_wait();
      work(t);
    });
  }
  for (auto& one : running)
    one.join();
}

TEST(GroupCommit, KeepsEveryAppendOfManyThreadsAndChainsThem) {
  ScratchStore scratch;
  on_all_threads([&](int t) {
    for (int i = 0; i < appends_each; ++i) {
      must_append(*scratch.store, append_of("job/" + std::to_string(t % 3), {event(key_of(t, i))}));
    }
  });
  const auto report = scratch->verify();
  EXPECT_TRUE(report.ok());
  EXPECT_EQ(report.events, static_cast<std::uint64_t>(threads * appends_each));
  for (int t = 0; t < threads; ++t) {
    for (int i = 0; i < appends_each; ++i)
      EXPECT_TRUE(scratch->events().find(key_of(t, i)).has_value());
  }
}

TEST(GroupCommit, ThatHoldsAFailingAppendKeepsTheOthers) {
  ScratchStore scratch;
  std::atomic<int> failed{0};
  on_all_threads([&](int t) {
    for (int i = 0; i < appends_each; ++i) {
      Append append = append_of("job/1", {event(key_of(t, i)), event(key_of(t, i) + "-second")});
      if (t % 4 == 0) append.index_change = [](auto) -> IndexChange { throw std::runtime_error("no index"); };
      try {
        must_append(*scratch.store, append);
      } catch (const std::runtime_error&) {
        ++failed;
      }
    }
  });
  EXPECT_EQ(failed, threads / 4 * appends_each);
  EXPECT_TRUE(scratch->verify().ok());
  EXPECT_EQ(scratch->verify().events, static_cast<std::uint64_t>(threads / 4 * 3 * appends_each * 2));
}

TEST(GroupCommit, LetsOneOfManyWinWhenAllExpectTheSameHead) {
  ScratchStore scratch;
  std::atomic<int> won{0};
  std::atomic<int> moved{0};
  on_all_threads([&](int t) {
    Append append = append_of("job/1", {event(key_of(t, 0))});
    append.expected_head = Head{};
    const auto result = scratch->events().append(append);
    if (std::holds_alternative<Appended>(result)) ++won;
    if (std::holds_alternative<HeadMoved>(result)) ++moved;
  });
  EXPECT_EQ(won, 1);
  EXPECT_EQ(moved, threads - 1);
}

TEST(GroupCommit, StoresOnceWhatManySendAtTheSameTime) {
  ScratchStore scratch;
  std::atomic<std::size_t> fresh{0};
  on_all_threads(
      [&](int) { fresh += must_append(*scratch.store, append_of("job/1", {event("same")})).fresh; });
  EXPECT_EQ(fresh, 1U);
  EXPECT_EQ(scratch->events().read("job/1").size(), 1U);
}

TEST(GroupCommit, TellsTheListenerInTheOrderOfEachStreamBeforeTheAppendReturns) {
  ScratchStore scratch;
  std::mutex guard;
  std::map<std::string, std::uint64_t> last;
  bool in_order = true;
  scratch->events().set_listener([&](std::span<const StoredEvent> events) {
    const std::scoped_lock lock(guard);
    for (const auto& one : events) {
      in_order = in_order && one.seq == last[one.stream] + 1;
      last[one.stream] = one.seq;
    }
  });
  std::atomic<bool> heard_before_return{true};
  on_all_threads([&](int t) {
    for (int i = 0; i < appends_each; ++i) {
      const std::string stream = "job/" + std::to_string(t % 3);
      const auto appended = must_append(*scratch.store, append_of(stream, {event(key_of(t, i))}));
      const std::scoped_lock lock(guard);
      if (last[stream] < appended.head.seq) heard_before_return = false;
    }
  });
  EXPECT_TRUE(in_order);
  EXPECT_TRUE(heard_before_return);
}

TEST(GroupCommit, IsNotHeldUpByReadersNorTheyByIt) {
  ScratchStore scratch;
  std::atomic<bool> stop{false};
  std::atomic<bool> whole{true};
  std::vector<std::thread> reading;
  reading.reserve(12);
  for (int r = 0; r < 12; ++r) {  // more than there are connections
    reading.emplace_back([&] {
      while (!stop) {
        const auto events = scratch->events().read("job/1");
        if (first_break("job/1", events)) whole = false;
      }
    });
  }
  for (int i = 0; i < 100; ++i) {
    must_append(*scratch.store,
                append_of("job/1", {event("a" + std::to_string(i)), event("b" + std::to_string(i))}));
  }
  stop = true;
  for (auto& one : reading)
    one.join();
  EXPECT_TRUE(whole);
  EXPECT_EQ(scratch->events().read("job/1").size(), 200U);
}

int count_commit(void* commits) {
  ++*static_cast<int*>(commits);
  return 0;
}

// Everything that waits while one transaction is under way goes into the next one together.
TEST(GroupCommit, TakesAllWhoWaitIntoOneTransaction) {
  ScratchDirectory directory;
  Connection connection({directory / "plain.db", Access::write});
  connection.execute("CREATE TABLE t (x)");
  int commits = 0;
  sqlite3_commit_hook(connection.handle(), count_commit, &commits);
  GroupCommit writer(std::move(connection));
  const auto insert = [](WriteScope& scope) { Query(scope.connection, "INSERT INTO t VALUES (1)").run(); };
  std::atomic<bool> first_writes{false};
  std::thread first([&] {
    writer.run([&](WriteScope& scope) {
      insert(scope);
      first_writes = true;
      while (writer.waiting() < threads)
        std::this_thread::yield();
    });
  });
  while (!first_writes)
    std::this_thread::yield();
  std::vector<std::thread> others;
  others.reserve(threads);
  for (int t = 0; t < threads; ++t)
    others.emplace_back([&] { writer.run(insert); });
  first.join();
  for (auto& one : others)
    one.join();
  EXPECT_EQ(commits, 2);
  writer.run(
      [](WriteScope& scope) { EXPECT_EQ(scope.connection.number("SELECT count(*) FROM t"), threads + 1); });
}

}  // namespace
}  // namespace pumpwright::store

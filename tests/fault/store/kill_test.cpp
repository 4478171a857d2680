// The process is killed at 200 random moments under load; every event it acknowledged must be there. (The
// operating system keeps running here; losing power is what power_cut_test.cpp is about.)
#include <array>
#include <chrono>
#include <random>
#include <sstream>
#include <thread>

#include <fcntl.h>
#include <signal.h>  // NOLINT(modernize-deprecated-headers): kill is not in <csignal>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "store/event_hash.h"
#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

// Runs the child, kills it after the given time, gives what it acknowledged.
std::string acknowledged_until_killed(const std::filesystem::path& file, const std::string& round,
                                      std::chrono::microseconds time) {
  std::array<int, 2> ends{};
  EXPECT_EQ(::pipe2(ends.data(), O_CLOEXEC), 0);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
  std::string program = KILL_CHILD;
  std::string place = file.string();
  std::string name = round;
  std::array<char*, 4> arguments{program.data(), place.data(), name.data(), nullptr};
  pid_t child = 0;
  EXPECT_EQ(::posix_spawn(&child, program.c_str(), &actions, nullptr, arguments.data(), environ), 0);
  posix_spawn_file_actions_destroy(&actions);
  ::close(ends[1]);
  std::string text;
  std::thread reading([&] {
    std::array<char, 65536> buffer{};
    ssize_t got = 0;
    while ((got = ::read(ends[0], buffer.data(), buffer.size())) > 0)
      text.append(buffer.data(), static_cast<std::size_t>(got));
  });
  std::this_thread::sleep_for(time);
  EXPECT_EQ(::kill(child, SIGKILL), 0);
  int status = 0;
  EXPECT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFSIGNALED(status)) << "the child ended by itself with " << status;
  reading.join();
  ::close(ends[0]);
  return text;
}

// Gives how many acknowledged events it looked at.
std::size_t expect_all_there(Store& store, const std::string& acknowledged) {
  std::istringstream lines(acknowledged);
  std::string key;
  std::string hash;
  std::size_t count = 0;
  while (lines >> key >> hash) {
    const auto stored = store.events().find(key);
    EXPECT_TRUE(stored.has_value()) << key << " was acknowledged and is lost";
    if (stored) {
      EXPECT_EQ(to_hex(stored->hash), hash);
    }
    // The two events of one append are there together.
    std::string sibling = key;
    sibling.back() = key.back() == '0' ? '1' : '0';
    EXPECT_TRUE(store.events().find(sibling).has_value()) << "half of an append";
    ++count;
  }
  return count;
}

TEST(Kill, At200RandomMomentsLosesNothingAcknowledged) {
  constexpr int kills = 200;
  constexpr int kills_per_store = 20;
  std::mt19937_64 random(20261125);
  std::uniform_int_distribution<int> microseconds(0, 120'000);
  std::size_t acknowledged = 0;
  int rounds_with_events = 0;
  for (int first = 0; first < kills; first += kills_per_store) {
    const ScratchDirectory directory;
    for (int k = first; k < first + kills_per_store; ++k) {
      const std::string text = acknowledged_until_killed(directory / "shop.db", "k" + std::to_string(k),
                                                         std::chrono::microseconds(microseconds(random)));
      const auto store = Store::open(directory / "shop.db");
      const auto report = store->verify();
      ASSERT_TRUE(report.ok()) << report.problems.front();
      EXPECT_EQ(report.events % 2, 0U) << "half of an append";
      const std::size_t count = expect_all_there(*store, text);
      acknowledged += count;
      rounds_with_events += count > 0 ? 1 : 0;
    }
  }
  RecordProperty("acknowledged", static_cast<int>(acknowledged));
  EXPECT_GT(rounds_with_events, 20) << "the kills must come while events are written";
}

}  // namespace
}  // namespace pumpwright::store

#include "store/secrets.h"

#include <fstream>
#include <sstream>
#include <thread>

#include "tests/unit/store/scratch_store.h"

namespace pumpwright::store {
namespace {

TEST(Secrets, KeepBytesByKindAndId) {
  ScratchStore scratch;
  const std::string bytes("\0\xff$argon2id$", 12);
  scratch->secrets().put("password", {"jm", bytes, {}});
  scratch->secrets().put("pin", {"jm", "other", {}});
  EXPECT_EQ(scratch->secrets().get("password", "jm"), (Secret{"jm", bytes, {}}));
  EXPECT_FALSE(scratch->secrets().get("password", "rk").has_value());
  scratch->secrets().put("password", {"jm", "", {}});
  EXPECT_EQ(scratch->secrets().get("password", "jm")->bytes, "");
  EXPECT_TRUE(scratch->secrets().erase("password", "jm"));
  EXPECT_FALSE(scratch->secrets().erase("password", "jm"));
  EXPECT_FALSE(scratch->secrets().get("password", "jm").has_value());
  EXPECT_TRUE(scratch->secrets().get("pin", "jm").has_value());
}

TEST(Secrets, AreListedByIdWithinTheirKind) {
  ScratchStore scratch;
  for (const char* id : {"c", "a", "b"})
    scratch->secrets().put("device", {id, "x", {}});
  scratch->secrets().put("session", {"d", "x", {}});
  std::string ids;
  for (const auto& one : scratch->secrets().list("device"))
    ids += one.id;
  EXPECT_EQ(ids, "abc");
}

TEST(Secrets, AreGoneFromTheMomentTheyExpire) {
  ScratchStore scratch;
  scratch->secrets().put("session", {"s", "x", test_now_ms + 1000});
  scratch->secrets().put("session", {"for-good", "x", {}});
  scratch.now_ms = test_now_ms + 999;
  EXPECT_TRUE(scratch->secrets().get("session", "s").has_value());
  EXPECT_EQ(scratch->secrets().purge_expired(), 0U);
  scratch.now_ms = test_now_ms + 1000;
  EXPECT_FALSE(scratch->secrets().get("session", "s").has_value());
  EXPECT_EQ(scratch->secrets().list("session").size(), 1U);
  EXPECT_FALSE(scratch->secrets().erase("session", "s"));
  scratch->secrets().put("session", {"t", "x", test_now_ms});
  EXPECT_EQ(scratch->secrets().purge_expired(), 1U);
  EXPECT_EQ(scratch->secrets().purge_expired(), 0U);
}

TEST(Secrets, RefuseWhatIsOutOfBounds) {
  ScratchStore scratch;
  EXPECT_THROW(scratch->secrets().put("", {"a", "x", {}}), std::length_error);
  EXPECT_THROW(scratch->secrets().put("k", {"", "x", {}}), std::length_error);
  EXPECT_THROW(scratch->secrets().put("k", {std::string(129, 'a'), "x", {}}), std::length_error);
  EXPECT_THROW(scratch->secrets().put("k", {"a", std::string(secret_bytes_max + 1, 'x'), {}}),
               std::length_error);
  EXPECT_NO_THROW(scratch->secrets().put("k", {"a", std::string(secret_bytes_max, 'x'), {}}));
}

TEST(Secrets, CountRightWhenManyThreadsChangeOne) {
  ScratchStore scratch;
  constexpr int threads = 8;
  constexpr int times = 25;
  std::vector<std::thread> running;
  for (int t = 0; t < threads; ++t) {
    running.emplace_back([&] {
      for (int i = 0; i < times; ++i) {
        scratch->secrets().change("throttle", "bench-3 jm", [](std::optional<Secret> before) {
          const int count = before ? std::stoi(before->bytes) : 0;
          return std::optional(Secret{"", std::to_string(count + 1), {}});
        });
      }
    });
  }
  for (auto& one : running)
    one.join();
  EXPECT_EQ(scratch->secrets().get("throttle", "bench-3 jm")->bytes, std::to_string(threads * times));
  scratch->secrets().change("throttle", "bench-3 jm", [](std::optional<Secret>) { return std::nullopt; });
  EXPECT_FALSE(scratch->secrets().get("throttle", "bench-3 jm").has_value());
}

TEST(Secrets, LeaveNoBytesInTheFileWhenErased) {
  ScratchStore scratch;
  const std::string mark = "a-wrapped-key-that-must-not-stay-behind";
  scratch->secrets().put("key", {"jm", mark, {}});
  scratch->secrets().erase("key", "jm");
  scratch.store.reset();
  std::ifstream file(scratch.file, std::ios::binary);
  std::ostringstream contents;
  contents << file.rdbuf();
  const std::string bytes = contents.str();
  EXPECT_GT(bytes.size(), 4096U);
  EXPECT_EQ(bytes.find(mark), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::store

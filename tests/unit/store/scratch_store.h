// A store in a directory of its own, for one test; and short ways to say what most tests hand in.
#pragma once

#include <atomic>
#include <filesystem>
#include <memory>
#include <string>
#include <utility>

#include <gtest/gtest.h>
#include <unistd.h>

#include "store/store.h"

namespace pumpwright::store {

class ScratchDirectory {
 public:
  ScratchDirectory() {
    static std::atomic<int> count{0};
    path_ = std::filesystem::temp_directory_path() /
            ("pumpwright-store-" + std::to_string(::getpid()) + "-" + std::to_string(++count));
    std::filesystem::create_directories(path_);
  }
  ~ScratchDirectory() { std::filesystem::remove_all(path_); }
  ScratchDirectory(const ScratchDirectory&) = delete;
  ScratchDirectory& operator=(const ScratchDirectory&) = delete;

  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

 private:
  std::filesystem::path path_;
};

// 2026-11-25T14:02:00.250Z
inline constexpr std::int64_t test_now_ms = 1'795'615'320'250;

struct ScratchStore {
  ScratchDirectory directory;
  std::filesystem::path file = directory / "shop.db";
  std::int64_t now_ms = test_now_ms;
  std::unique_ptr<Store> store = open();

  std::unique_ptr<Store> open() {
    StoreOptions options;
    options.now_ms = [this] { return now_ms; };
    return Store::open(file, std::move(options));
  }
  Store* operator->() const { return store.get(); }
};

inline NewEvent event(std::string key, std::string payload = R"({"value": "3.5 thou"})",
                      std::string type = "reading") {
  return {std::move(type), "jm", "bench-3", 7, std::move(key), std::move(payload)};
}

inline Append append_of(std::string stream, std::vector<NewEvent> events) {
  return {std::move(stream), std::move(events), std::nullopt, {}};
}

// What was appended; a failure of the test when it was refused.
inline Appended must_append(Store& store, const Append& append) {
  AppendResult result = store.events().append(append);
  auto* appended = std::get_if<Appended>(&result);
  EXPECT_NE(appended, nullptr) << "the append was refused";
  return appended ? *appended : Appended{};
}

}  // namespace pumpwright::store

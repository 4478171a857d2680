// A store in a directory of its own, with a clock the test sets.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>

#include <unistd.h>

#include "store/store.h"

namespace pumpwright::server {

class TemporaryDirectory {
 public:
  TemporaryDirectory() {
    std::string pattern = (std::filesystem::temp_directory_path() / "pumpwright-server-XXXXXX").string();
    path_ = ::mkdtemp(pattern.data());
  }
  ~TemporaryDirectory() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryDirectory(const TemporaryDirectory&) = delete;
  TemporaryDirectory& operator=(const TemporaryDirectory&) = delete;

  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

struct AStore {
  TemporaryDirectory directory;
  std::int64_t now_ms = 1'764'000'000'000;
  std::unique_ptr<store::Store> store =
      store::Store::open(directory.path() / "shop.sqlite", {.now_ms = [this] { return now_ms; }});

  std::function<std::int64_t()> clock() {
    return [this] { return now_ms; };
  }
  void pass(std::int64_t seconds) { now_ms += seconds * 1000; }
};

}  // namespace pumpwright::server

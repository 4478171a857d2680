// The code that makes the first person: printed where the server was started, good once, only while the shop
// has nobody. Whoever can read it already holds the data directory.
#pragma once

#include <mutex>
#include <string>
#include <string_view>

namespace pumpwright::server {

class FirstStart {
 public:
  // An empty code: the shop has people.
  explicit FirstStart(std::string code) : code_(std::move(code)) {}

  bool open() const;
  bool matches(std::string_view typed) const;  // never when it is not open
  void used();

 private:
  mutable std::mutex mutex_;
  std::string code_;
};

}  // namespace pumpwright::server

// What went wrong during a load: every fault counts, the first ones are kept in words.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace pumpwright::bench {

class Faults {
 public:
  void add(std::string what) {
    ++count_;
    if (first_.size() < kept_max) first_.push_back(std::move(what));
  }
  std::size_t count() const { return count_; }
  const std::vector<std::string>& first() const { return first_; }

 private:
  static constexpr std::size_t kept_max = 50;
  std::size_t count_ = 0;
  std::vector<std::string> first_;
};

}  // namespace pumpwright::bench

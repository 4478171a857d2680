// Every build of the shop as life data sees it, kept in memory: reading 200,000 of them from the store takes
// longer than anybody waits for a page. It follows the store, reading only what changed since it was asked
// last.
#pragma once

#include <cstdint>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "shop/build_lives.h"
#include "store/index.h"

namespace pumpwright::shop {

// What stayed out how long at a moment, and the builds behind it.
struct Lives {
  std::shared_ptr<const std::vector<KnownBuild>> builds;
  std::vector<BuildLife> lives;
};

class LifeBook {
 public:
  explicit LifeBook(const store::Index& index) : index_(index) {}

  // As the store stands now. The texts stay as long as the book. May be called from many threads.
  Lives lives(std::int64_t now_s);
  // Forgets everything: after the index was made anew.
  void forget();

 private:
  void follow();
  void put(const store::IndexEntry& entry);
  std::string_view kept(const std::string& text);

  const store::Index& index_;
  std::mutex mutex_;
  std::int64_t position_ = 0;
  std::unordered_set<std::string> texts_;  // never shrinks: what was handed out stays
  std::vector<KnownBuild> builds_;         // in the order in which the jobs came to the store
  std::unordered_map<std::string_view, std::size_t> place_of_stream_;
  // What was handed out last; made anew when a build has changed.
  std::shared_ptr<const std::vector<KnownBuild>> shown_builds_;
  std::vector<BuildLife> shown_lives_;
};

}  // namespace pumpwright::shop

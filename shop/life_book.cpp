#include "shop/life_book.h"

#include <tuple>

#include "job/utc_time.h"
#include "shop/job_index.h"

namespace pumpwright::shop {
namespace {

constexpr std::size_t to_the_second = std::string_view("2026-11-25T14:02:00").size();

// Of a moment with or without its milliseconds.
std::int64_t seconds_of(const std::string& utc) {
  return job::parse_utc_time(utc.substr(0, to_the_second) + "Z", "time").seconds;
}

bool is_same(const KnownBuild& a, const KnownBuild& b) {
  const auto parts = [](const KnownBuild& k) {
    return std::tie(k.number, k.serial, k.customer, k.pump, k.seal, k.came_for, k.opened_s, k.out_s,
                    k.readings);
  };
  return parts(a) == parts(b);
}

// `kept` gives a text that stays.
template <class Kept>
KnownBuild known(const JobCard& card, const Kept& kept) {
  KnownBuild build{.number = kept(card.number),
                   .serial = kept(card.serial),
                   .customer = kept(card.customer),
                   .pump = kept(card.pump),
                   .seal = kept(card.seal),
                   .came_for = card.came_for,
                   .opened_s = seconds_of(card.opened)};
  if (card.released) build.out_s = seconds_of(card.released_at);
  for (std::size_t i = 0; i < checks_of_lives.size(); ++i)
    if (const auto reading = card.readings.find(std::string(checks_of_lives[i]));
        reading != card.readings.end())
      build.readings[i] = reading->second;
  return build;
}

}  // namespace

Lives LifeBook::lives(std::int64_t now_s) {
  const std::lock_guard lock(mutex_);
  follow();
  if (!shown_builds_) {
    shown_builds_ = std::make_shared<const std::vector<KnownBuild>>(builds_);
    shown_lives_ = lives_in(*shown_builds_);
  }
  return {shown_builds_, as_of(shown_lives_, now_s)};
}

void LifeBook::forget() {
  const std::lock_guard lock(mutex_);
  position_ = 0;
  builds_.clear();
  place_of_stream_.clear();
  shown_builds_.reset();
}

void LifeBook::follow() {
  position_ = index_.for_each_changed(position_, [this](const store::IndexEntry& entry) { put(entry); });
}

std::string_view LifeBook::kept(const std::string& text) {
  return *texts_.insert(text).first;
}

// Most of what happens to a job changes nothing here: then what was handed out last still holds.
void LifeBook::put(const store::IndexEntry& entry) {
  const auto [at, is_new] = place_of_stream_.emplace(kept(entry.stream), builds_.size());
  if (is_new) builds_.emplace_back();
  const KnownBuild build = known(card_in(entry), [this](const std::string& text) { return kept(text); });
  if (!is_new && is_same(build, builds_[at->second])) return;
  builds_[at->second] = build;
  shown_builds_.reset();
}

}  // namespace pumpwright::shop

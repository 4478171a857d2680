#include "engine/reliability/weibull_data.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::reliability {
namespace {

double shortest_return_s(std::span<const Life> lives) {
  double shortest_s = std::numeric_limits<double>::infinity();
  for (const Life& life : lives)
    if (life.ending == Ending::returned) shortest_s = std::min(shortest_s, life.time.value());
  return shortest_s;
}

void require_threshold(std::span<const Life> lives, double threshold_s) {
  if (threshold_s >= 0 && threshold_s < shortest_return_s(lives)) return;
  throw BadInput(
      {"threshold", "", fmt::format("{:.9g} s", threshold_s), "a time from 0 to below the first return"});
}

}  // namespace

WeibullData::WeibullData(std::span<const Life> lives, Time threshold) : threshold_(threshold) {
  require_valid(lives);
  const double threshold_s = threshold.value();
  require_threshold(lives, threshold_s);
  double longest_s = 0;
  for (const Life& life : lives)
    longest_s = std::max(longest_s, life.time.value() - threshold_s);
  log_longest_ = std::log(longest_s);
  double returned_sum = 0;
  for (const Life& life : lives) {
    const double left_s = life.time.value() - threshold_s;
    if (left_s <= 0) continue;
    const double x = std::log(left_s / longest_s);
    if (terms_.empty() || terms_.back().x != x) terms_.push_back({x, 0});
    terms_.back().weight += 1;
    ++units_;
    if (life.ending != Ending::returned) continue;
    returned_sum += x;
    ++returned_;
  }
  if (returned_ > 0) mean_returned_x_ = returned_sum / static_cast<double>(returned_);
}

WeibullData::Powers WeibullData::powers(double shape) const {
  Powers p;
  for (const Term& term : terms_) {
    const double power = term.weight * std::exp(shape * term.x);
    p.sum += power;
    p.first += term.x * power;
    p.second += term.x * term.x * power;
  }
  return p;
}

double WeibullData::log_sum_returned() const {
  return static_cast<double>(returned_) * (mean_returned_x_ + log_longest_);
}

}  // namespace pumpwright::reliability

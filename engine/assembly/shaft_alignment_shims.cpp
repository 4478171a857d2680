#include "engine/assembly/shaft_alignment_shims.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"

namespace pumpwright::alignment {
namespace {

struct Search {
  double wanted_m;
  std::vector<double> stock_m;  // thickest first
  std::vector<double> taken_m{};
  std::vector<double> best_m{};
  double best_off_m;

  void offer(double sum_m) {
    constexpr double same_m = 1e-12;
    const double off_m = std::abs(wanted_m - sum_m);
    const bool nearer = off_m < best_off_m - same_m;
    const bool as_near = off_m <= best_off_m + same_m && taken_m.size() < best_m.size();
    if (nearer || as_near) {
      best_off_m = off_m;
      best_m = taken_m;
    }
  }

  // Adds shims not thicker than the last one; no use in going further beyond the wanted than the best is off.
  void take(std::size_t from, std::size_t left, double sum_m) {
    offer(sum_m);
    if (left == 0 || sum_m >= wanted_m) return;
    for (std::size_t i = from; i < stock_m.size(); ++i) {
      taken_m.push_back(stock_m[i]);
      take(i, left - 1, sum_m + stock_m[i]);
      taken_m.pop_back();
    }
  }
};

}  // namespace

ShimPack nearest_pack(Length wanted, std::span<const Length> stock, std::size_t most) {
  require_between(wanted.value(), 0, 0.1, "shims/wanted", "a thickness from 0 to 100 mm");
  require_between(static_cast<double>(stock.size()), 1, static_cast<double>(stock_max), "shims/stock",
                  fmt::format("1 to {} thicknesses", stock_max));
  require_between(static_cast<double>(most), 1, static_cast<double>(shims_per_pack_max), "shims/most",
                  fmt::format("a number from 1 to {}", shims_per_pack_max));
  Search search{.wanted_m = wanted.value(), .stock_m = {}, .best_off_m = wanted.value()};
  for (const Length& t : stock) {
    require_that(std::isfinite(t.value()) && t.value() > 0, t.value(), "shims/stock", "thicknesses over 0");
    search.stock_m.push_back(t.value());
  }
  std::sort(search.stock_m.rbegin(), search.stock_m.rend());
  search.take(0, most, 0);

  ShimPack pack;
  for (const double t_m : search.best_m) {
    pack.shims.push_back(metres(t_m));
    pack.thickness += metres(t_m);
  }
  pack.left = wanted - pack.thickness;
  return pack;
}

const char* word_for(Foot foot) {
  switch (foot) {
    case Foot::front_left:
      return "front left";
    case Foot::front_right:
      return "front right";
    case Foot::back_left:
      return "back left";
    case Foot::back_right:
      return "back right";
  }
  return "";
}

SoftFoot soft_foot_of(const std::array<Length, 4>& rises, Length limit) {
  for (const Length& rise : rises)
    require_that(std::isfinite(rise.value()) && rise.value() >= 0, rise.value(), "soft_foot",
                 "rises of 0 or more");
  SoftFoot out;
  for (std::size_t i = 0; i < rises.size(); ++i)
    if (rises[i] > limit) out.soft.push_back(static_cast<Foot>(i));
  std::stable_sort(out.soft.begin(), out.soft.end(), [&](Foot a, Foot b) {
    return rises[static_cast<std::size_t>(a)] > rises[static_cast<std::size_t>(b)];
  });
  if (!out.soft.empty()) out.shim = rises[static_cast<std::size_t>(out.soft.front())];
  const auto over = [&](Foot foot) { return rises[static_cast<std::size_t>(foot)] > limit; };
  out.rocks = (over(Foot::front_left) && over(Foot::back_right)) ||
              (over(Foot::front_right) && over(Foot::back_left));
  return out;
}

}  // namespace pumpwright::alignment

// Which of the shop's builds a question about returns is asked of, and how they are parted.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/returns_finding.h"
#include "shop/build_lives.h"

namespace pumpwright::shop {

// What builds are told apart by. Never people.
enum class BuildTrait { pump, customer, seal };

std::string_view value_of(const KnownBuild& build, BuildTrait trait);

struct ReturnsAsked {
  std::string pump{}, customer{}, seal{};      // only builds of these; empty: all
  std::optional<BuildTrait> by{};              // compare groups of builds
  std::optional<std::int64_t> changed_at_s{};  // compare builds that went out before with those since
  std::vector<std::string_view> checks{};      // of `checks_of_lives`: does the reading go with returns?
};

// Groups that are kept apart; the smaller ones are put together under an empty name.
inline constexpr std::size_t groups_apart_max = 11;

// Lengths are in thou: one unit more of a reading is what a bench would notice. Times are taken to a tenth of
// a day and shown in days. Nothing when no build is left. Whether a change helped is not asked when all of
// them went out on one side of its day. `by` and `changed_at_s` together are a programmer's error (asserted).
std::optional<job::ReturnsQuestion> returns_question(const std::vector<BuildLife>& lives,
                                                     const ReturnsAsked& asked);

// How many of the returns among those builds came without the record saying for what.
std::size_t reasons_not_said(const std::vector<BuildLife>& lives, const ReturnsAsked& asked);

// What builds there are of a trait, most first, at most 200.
struct TraitCount {
  std::string value;
  std::size_t builds = 0;
};
std::vector<TraitCount> traits_of(const std::vector<BuildLife>& lives, BuildTrait trait);

}  // namespace pumpwright::shop

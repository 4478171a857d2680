#include "shop/returns_asked.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <unordered_map>
#include <unordered_set>

#include "engine/quantity/parse.h"

namespace pumpwright::shop {
namespace {

constexpr double seconds_per_day = 86400;
constexpr double parts_per_day = 10;
constexpr double metres_per_thou = 2.54e-5;
constexpr std::size_t traits_max = 200;

bool is_asked_of(const KnownBuild& build, const ReturnsAsked& asked) {
  const auto fits = [](std::string_view value, const std::string& wanted) {
    return wanted.empty() || value == wanted;
  };
  return fits(build.pump, asked.pump) && fits(build.customer, asked.customer) && fits(build.seal, asked.seal);
}

std::vector<const BuildLife*> chosen(const std::vector<BuildLife>& lives, const ReturnsAsked& asked) {
  std::vector<const BuildLife*> out;
  for (const auto& life : lives)
    if (is_asked_of(*life.build, asked)) out.push_back(&life);
  return out;
}

std::vector<std::pair<std::string_view, std::size_t>> counted(const std::vector<const BuildLife*>& lives,
                                                              BuildTrait trait) {
  std::unordered_map<std::string_view, std::size_t> count;
  for (const BuildLife* life : lives)
    ++count[value_of(*life->build, trait)];
  std::vector<std::pair<std::string_view, std::size_t>> out(count.begin(), count.end());
  std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) {
    return a.second != b.second ? a.second > b.second : a.first < b.first;
  });
  return out;
}

// All of them, or the largest.
std::unordered_set<std::string_view> groups_apart(const std::vector<const BuildLife*>& lives,
                                                  BuildTrait trait) {
  auto groups = counted(lives, trait);
  if (groups.size() > groups_apart_max + 1) groups.resize(groups_apart_max);
  std::unordered_set<std::string_view> out;
  for (const auto& [name, builds] : groups)
    out.insert(name);
  return out;
}

// As fine as the record can mean it, and no finer: equal times are counted together.
double shown_days(double days) {
  return std::max(1.0, std::round(parts_per_day * days)) / parts_per_day;
}

job::ReturnsRow row_of(const BuildLife& life, const std::vector<std::size_t>& readings) {
  job::ReturnsRow row{.line = 0,
                      .time = seconds(shown_days(life.days) * seconds_per_day),
                      .ending = life.ending,
                      .group = {},
                      .pump = std::string(life.build->serial),
                      .readings = {}};
  for (const std::size_t which : readings) {
    const auto& reading = life.build->readings[which];
    row.readings.push_back(reading ? std::optional(*reading / metres_per_thou) : std::nullopt);
  }
  return row;
}

bool has_both_sides(const job::ReturnsTable& table) {
  const auto is_before = [](const job::ReturnsRow& row) { return row.group == "before"; };
  return std::any_of(table.rows.begin(), table.rows.end(), is_before) &&
         !std::all_of(table.rows.begin(), table.rows.end(), is_before);
}

std::vector<std::size_t> places_of(const std::vector<std::string_view>& checks) {
  std::vector<std::size_t> out;
  for (const auto check : checks) {
    const auto* at = std::find(checks_of_lives.begin(), checks_of_lives.end(), check);
    assert(at != checks_of_lives.end());
    out.push_back(static_cast<std::size_t>(at - checks_of_lives.begin()));
  }
  return out;
}

}  // namespace

std::string_view value_of(const KnownBuild& build, BuildTrait trait) {
  if (trait == BuildTrait::pump) return build.pump;
  return trait == BuildTrait::customer ? build.customer : build.seal;
}

std::optional<job::ReturnsQuestion> returns_question(const std::vector<BuildLife>& lives,
                                                     const ReturnsAsked& asked) {
  assert(!asked.by || !asked.changed_at_s);
  const auto of = chosen(lives, asked);
  if (of.empty()) return std::nullopt;
  job::ReturnsQuestion question;
  question.is_calendar = true;
  question.threshold = false;
  for (const auto check : asked.checks)
    question.columns.covariates.emplace_back(check);
  question.table.unit = &parse_unit("d", Kind::time, "time");
  question.table.has_pump = true;
  question.table.has_group = asked.by || asked.changed_at_s;
  const auto readings = places_of(asked.checks);
  const auto apart = asked.by ? groups_apart(of, *asked.by) : std::unordered_set<std::string_view>();
  question.table.rows.reserve(of.size());
  for (const BuildLife* life : of) {
    auto row = row_of(*life, readings);
    if (asked.changed_at_s) row.group = *life->build->out_s < *asked.changed_at_s ? "before" : "after";
    if (asked.by) {
      const auto group = value_of(*life->build, *asked.by);
      if (apart.count(group) != 0) row.group = group;
    }
    question.table.rows.push_back(std::move(row));
  }
  question.before_after = asked.changed_at_s && has_both_sides(question.table);
  return question;
}

std::size_t reasons_not_said(const std::vector<BuildLife>& lives, const ReturnsAsked& asked) {
  return static_cast<std::size_t>(std::count_if(lives.begin(), lives.end(), [&](const BuildLife& life) {
    return !life.reason_said && is_asked_of(*life.build, asked);
  }));
}

std::vector<TraitCount> traits_of(const std::vector<BuildLife>& lives, BuildTrait trait) {
  std::vector<TraitCount> out;
  for (const auto& [value, builds] : counted(chosen(lives, {}), trait)) {
    if (out.size() == traits_max) break;
    if (!value.empty()) out.push_back({std::string(value), builds});
  }
  return out;
}

}  // namespace pumpwright::shop

#include "shop/build_lives.h"

#include <algorithm>
#include <unordered_map>

#include <fmt/format.h>

#include "job/csv_cell.h"
#include "job/returns_table.h"
#include "job/utc_time.h"

namespace pumpwright::shop {
namespace {

using reliability::Ending;

constexpr double seconds_per_day = 86400;
constexpr double micrometres_per_metre = 1e6;

double days_between(std::int64_t from_s, std::int64_t to_s) {
  return static_cast<double>(to_s - from_s) / seconds_per_day;
}

std::vector<const KnownBuild*> as_opened(const std::vector<KnownBuild>& builds) {
  std::vector<const KnownBuild*> out(builds.size());
  std::transform(builds.begin(), builds.end(), out.begin(), [](const KnownBuild& b) { return &b; });
  std::stable_sort(out.begin(), out.end(),
                   [](const KnownBuild* a, const KnownBuild* b) { return a->opened_s < b->opened_s; });
  return out;
}

void end(BuildLife& life, const KnownBuild& next) {
  life.days = days_between(*life.build->out_s, next.opened_s);
  life.ending = next.came_for == job::CameFor::other ? Ending::replaced : Ending::returned;
  life.reason_said = next.came_for != job::CameFor::not_said;
}

std::string column_of(std::string_view check) {
  std::string name(check);
  std::replace(name.begin(), name.end(), '-', '_');
  return name + "_um";
}

std::string cell(std::string_view text) {
  return job::csv_cell(std::string(text));
}

}  // namespace

std::vector<BuildLife> lives_in(const std::vector<KnownBuild>& builds) {
  std::vector<BuildLife> lives;
  std::unordered_map<std::string_view, std::size_t>
      out;  // by serial number, the life of the build that is out
  for (const KnownBuild* build : as_opened(builds)) {
    if (build->serial.empty()) continue;
    if (const auto before = out.find(build->serial); before != out.end()) {
      end(lives[before->second], *build);
      out.erase(before);
    }
    if (!build->out_s) continue;
    out[build->serial] = lives.size();
    lives.push_back({build, 0, Ending::running});
  }
  return lives;
}

std::vector<BuildLife> as_of(const std::vector<BuildLife>& lives, std::int64_t now_s) {
  std::vector<BuildLife> out;
  out.reserve(lives.size());
  for (BuildLife life : lives) {
    if (life.ending == Ending::running) life.days = days_between(*life.build->out_s, now_s);
    if (life.days > 0) out.push_back(life);
  }
  return out;
}

std::string lives_csv(const std::vector<BuildLife>& lives) {
  std::string text = "pump,job,group,customer,seal,out,time,event";
  for (const auto check : checks_of_lives)
    text += "," + column_of(check);
  text += "\r\n";
  for (const auto& life : lives) {
    const KnownBuild& build = *life.build;
    text += fmt::format("{},{},{},{},{},{},{:.5g} d,{}", cell(build.serial), cell(build.number),
                        cell(build.pump), cell(build.customer), cell(build.seal),
                        job::format_utc_day({*build.out_s}), life.days, job::word_for(life.ending));
    for (const auto& reading : build.readings) {
      text += ",";
      if (reading) text += fmt::format("{:.4g}", micrometres_per_metre * *reading);
    }
    text += "\r\n";
  }
  return text;
}

}  // namespace pumpwright::shop

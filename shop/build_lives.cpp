#include "shop/build_lives.h"

#include <algorithm>
#include <limits>
#include <map>
#include <unordered_map>

#include <fmt/format.h>

#include "job/csv_cell.h"
#include "job/utc_time.h"
#include "shop/job_index.h"

namespace pumpwright::shop {
namespace {

constexpr double seconds_per_day = 86400;
constexpr double micrometres_per_metre = 1e6;
constexpr std::size_t to_the_second = std::string_view("2026-11-25T14:02:00").size();

// Of a moment with or without its milliseconds.
std::int64_t seconds_of(const std::string& utc) {
  return job::parse_utc_time(utc.substr(0, to_the_second) + "Z", "time").seconds;
}

double days_between(const std::string& from, std::int64_t to_s) {
  return static_cast<double>(to_s - seconds_of(from)) / seconds_per_day;
}

void put_readings(const store::Index& index, const std::vector<std::string>& checks,
                  std::vector<BuildLife>& lives) {
  std::unordered_map<std::string, BuildLife*> of_stream;
  of_stream.reserve(lives.size());
  for (auto& life : lives) {
    life.readings.resize(checks.size());
    of_stream.emplace(job_stream(life.card.number), &life);
  }
  for (std::size_t i = 0; i < checks.size(); ++i)
    for (const auto& value : index.series(series_of(checks[i]), std::numeric_limits<std::size_t>::max())) {
      const auto at = of_stream.find(value.stream);
      if (at == of_stream.end()) continue;
      auto& reading = at->second->readings[i];
      if (!reading) reading = value.number;  // the newest comes first
    }
}

std::string column_of(const std::string& check) {
  std::string name = check;
  std::replace(name.begin(), name.end(), '-', '_');
  return name + "_um";
}

}  // namespace

const std::vector<std::string>& checks_of_lives() {
  static const std::vector<std::string> checks{"impeller-sweep",  "sleeve-runout", "shaft-runout",
                                               "register-runout", "face-runout",   "seat-squareness",
                                               "end-float"};
  return checks;
}

std::vector<BuildLife> lives_of(std::span<const JobCard> cards, std::int64_t now_ms) {
  std::vector<BuildLife> lives;
  std::map<std::string, std::size_t> out;  // by serial number, where the life stands of the build that is out
  for (const JobCard& card : cards) {
    if (card.serial.empty()) continue;
    if (const auto before = out.find(card.serial); before != out.end()) {
      BuildLife& life = lives[before->second];
      life.days = days_between(life.card.last_at, seconds_of(card.opened));
      life.returned = true;
      out.erase(before);
    }
    if (!card.released) continue;
    out[card.serial] = lives.size();
    lives.push_back({card, days_between(card.last_at, now_ms / 1000), false, {}});
  }
  // A pump that was opened again in the second of its release was not out.
  std::erase_if(lives, [](const BuildLife& life) { return !(life.days > 0); });
  return lives;
}

std::vector<BuildLife> build_lives(const store::Index& index, const std::vector<std::string>& checks,
                                   std::int64_t now_ms) {
  const auto entries = index.entries();
  std::vector<JobCard> cards;
  cards.reserve(entries.size());
  for (const auto& entry : entries)
    cards.push_back(card_in(entry));
  std::vector<BuildLife> lives = lives_of(cards, now_ms);
  put_readings(index, checks, lives);
  return lives;
}

std::string lives_csv(const std::vector<BuildLife>& lives, const std::vector<std::string>& checks) {
  std::string text = "pump,job,group,time,event";
  for (const auto& check : checks)
    text += "," + column_of(check);
  text += "\r\n";
  for (const auto& life : lives) {
    text +=
        fmt::format("{},{},{},{:.5g} d,{}", job::csv_cell(life.card.serial), job::csv_cell(life.card.number),
                    job::csv_cell(life.card.pump), life.days, life.returned ? "returned" : "running");
    for (const auto& reading : life.readings) {
      text += ",";
      if (reading) text += fmt::format("{:.4g}", micrometres_per_metre * *reading);
    }
    text += "\r\n";
  }
  return text;
}

}  // namespace pumpwright::shop

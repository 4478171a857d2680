#include "shop/build_lives.h"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

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

// The value of each stream; of several that stand, the newest.
std::map<std::string, double> newest_by_stream(const store::Index& index, const std::string& check) {
  std::map<std::string, double> out;
  for (const auto& value : index.series("check/" + check, std::numeric_limits<std::size_t>::max()))
    out.emplace(value.stream, value.number);  // newest first: the first one stays
  return out;
}

// By RFC 4180.
std::string cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text)
    quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
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
  for (const auto& check : checks) {
    const auto values = newest_by_stream(index, check);
    for (auto& life : lives)
      if (const auto at = values.find(job_stream(life.card.number)); at != values.end())
        life.readings[check] = at->second;
  }
  return lives;
}

std::string lives_csv(const std::vector<BuildLife>& lives, const std::vector<std::string>& checks) {
  std::string text = "pump,job,group,time,event";
  for (const auto& check : checks)
    text += "," + column_of(check);
  text += "\r\n";
  for (const auto& life : lives) {
    text += fmt::format("{},{},{},{:.5g} d,{}", cell(life.card.serial), cell(life.card.number),
                        cell(life.card.pump), life.days, life.returned ? "returned" : "running");
    for (const auto& check : checks) {
      const auto at = life.readings.find(check);
      text += ",";
      if (at != life.readings.end()) text += fmt::format("{:.4g}", micrometres_per_metre * at->second);
    }
    text += "\r\n";
  }
  return text;
}

}  // namespace pumpwright::shop

#include "shop/job_index.h"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <string_view>
#include <tuple>

#include <nlohmann/json.hpp>

namespace pumpwright::shop {
namespace {

constexpr std::string_view prefix = "job/";
constexpr std::string_view old_prefix = "old/";
constexpr int card_format = 2;  // counts up whenever a card's fields change
constexpr std::string_view series_prefix = "check/";

double mean_si(const std::vector<Written>& values) {
  const auto add = [](double sum, const Written& w) { return sum + w.si; };
  return std::accumulate(values.begin(), values.end(), 0.0, add) / static_cast<double>(values.size());
}

std::optional<double> number_of_reading(const job::Reading& reading) {
  if (const auto* value = std::get_if<job::ValueReading>(&reading.body)) return mean_si(value->values);
  if (const auto* size = std::get_if<job::SizeReading>(&reading.body)) {
    double sum = 0;
    for (const auto& point : size->points)
      sum += point.diameter.si;
    return sum / static_cast<double>(size->points.size());
  }
  if (const auto* sweep = std::get_if<job::SweepReading>(&reading.body)) {
    const auto below = [](const job::SweepPoint& a, const job::SweepPoint& b) {
      return a.reading.si < b.reading.si;
    };
    const auto [low, high] = std::minmax_element(sweep->points.begin(), sweep->points.end(), below);
    return high->reading.si - low->reading.si;
  }
  return std::nullopt;
}

// Those of checks that life data asks for.
std::map<std::string, double> readings_for_lives(const job::JobLog& log) {
  auto readings = last_by_check(values_of(log));
  std::erase_if(readings, [](const auto& reading) {
    return std::find(checks_of_lives.begin(), checks_of_lives.end(), reading.first) == checks_of_lives.end();
  });
  return readings;
}

// A reading that stands, without what is written of it.
struct Standing {
  std::string_view check;
  const job::Reading* reading = nullptr;

  bool operator<(const Standing& other) const {
    return std::tie(check, reading->id) < std::tie(other.check, other.reading->id);
  }
};

std::vector<Standing> standing_in(const job::JobState& state) {
  std::vector<Standing> out;
  for (const auto& [check, readings] : state.standing)
    for (const auto& reading : readings)
      out.push_back({check, &reading});
  std::sort(out.begin(), out.end());
  return out;
}

// Nothing for a reading that is no number: a confirmation.
std::optional<store::IndexValue> value_of(const Standing& standing, const std::string& stream) {
  const job::Reading& reading = *standing.reading;
  const auto number = number_of_reading(reading);
  if (!number) return std::nullopt;
  return store::IndexValue{
      .stream = stream,
      .series = series_of(standing.check),
      .at = job::format_utc_time(reading.time),
      .ref = reading.id,
      .number = *number,
      .fields = nlohmann::json{{"actor", reading.actor}, {"instrument", reading.instrument}}.dump()};
}

// As one word by which builds are compared: kind, elastomer, face materials.
std::string seal_of(const job::Seal& seal) {
  std::string out = seal.kind;
  if (!seal.elastomer.empty()) out += ", " + seal.elastomer;
  if (!seal.ring.empty() || !seal.seat.empty()) out += ", " + seal.ring + "/" + seal.seat;
  return out;
}

std::string stream_of(const job::JobLog& log) {
  return job_stream(log.job().file.header.number);
}

void add_come(const Standing& standing, const job::JobLog& log, store::IndexChange& change) {
  if (auto value = value_of(standing, stream_of(log))) change.put_values.push_back(std::move(*value));
}

// One that came with the same change is not put at all: what is dropped is dropped before anything is put.
void add_gone(const Standing& standing, store::IndexChange& change) {
  if (!number_of_reading(*standing.reading)) return;
  store::IndexChange::Dropped gone{series_of(standing.check), standing.reading->id};
  std::erase_if(change.put_values, [&](const store::IndexValue& value) {
    return value.series == gone.series && value.ref == gone.ref;
  });
  change.drop_values.push_back(std::move(gone));
}

// A customer's or a pump's name finds jobs: a whole ledger must not stand in front of them.
std::string words_of(const JobCard& card) {
  if (card.old) return card.number + " " + card.serial;
  return card.number + " " + card.customer + " " + card.pump + " " + card.serial;
}

}  // namespace

std::string series_of(std::string_view check) {
  return std::string(series_prefix) + std::string(check);
}

std::string check_of_series(const std::string& series) {
  return series.starts_with(series_prefix) ? series.substr(series_prefix.size()) : std::string();
}

std::string job_stream(const std::string& number) {
  return std::string(prefix) + number;
}

std::string number_of(const std::string& stream) {
  return stream.rfind(prefix, 0) == 0 ? stream.substr(prefix.size()) : std::string();
}

std::string old_stream(const std::string& number) {
  return std::string(old_prefix) + number;
}

bool is_old(const std::string& stream) {
  return stream.starts_with(old_prefix);
}

JobCard card_of(const job::JobLog& log, const store::StoredEvent& last) {
  const auto& header = log.job().file.header;
  JobCard card{.number = header.number,
               .customer = header.customer,
               .pump = header.pump,
               .serial = header.serial,
               .seal = seal_of(log.job().file.make_up.seal),
               .came_for = header.came_for,
               .bench = log.job().bench,
               .waiting = log.job().waiting,
               .released = log.job().released,
               .opened = job::format_utc_time(header.opened),
               .released_at = {},
               .last_at = last.accepted_at,
               .last_actor = last.actor,
               .seq = last.seq};
  if (!card.released) return card;
  card.released_at = log.job().signatures.back().at;
  card.readings = readings_for_lives(log);
  return card;
}

store::IndexEntry entry_of(const JobCard& card) {
  nlohmann::ordered_json fields{{"made", card_format},
                                {"number", card.number},
                                {"customer", card.customer},
                                {"pump", card.pump},
                                {"serial", card.serial},
                                {"seal", card.seal},
                                {"came_for", job::word_of(card.came_for)},
                                {"bench", card.bench},
                                {"waiting", card.waiting},
                                {"released", card.released},
                                {"old", card.old},
                                {"opened", card.opened},
                                {"released_at", card.released_at},
                                {"last_at", card.last_at},
                                {"last_actor", card.last_actor},
                                {"seq", card.seq}};
  if (!card.readings.empty()) fields["readings"] = card.readings;
  return {.stream = card.old ? old_stream(card.number) : job_stream(card.number),
          .sort_key = card.bench + "\n" + card.opened,
          .fields = fields.dump(),
          .search = words_of(card),
          .open = !card.released && !card.old};
}

bool is_current(const store::IndexEntry& entry) {
  return nlohmann::json::parse(entry.fields).value("made", 0) == card_format;
}

JobCard card_in(const store::IndexEntry& entry) {
  const auto json = nlohmann::json::parse(entry.fields);
  const auto text = [&](const char* key) { return json.at(key).get<std::string>(); };
  JobCard card{.number = text("number"),
               .customer = text("customer"),
               .pump = text("pump"),
               .serial = text("serial"),
               .seal = text("seal"),
               .came_for = job::came_for_from(text("came_for")),
               .bench = text("bench"),
               .waiting = text("waiting"),
               .released = json.at("released").get<bool>(),
               .old = json.at("old").get<bool>(),
               .opened = text("opened"),
               .released_at = text("released_at"),
               .last_at = text("last_at"),
               .last_actor = text("last_actor"),
               .seq = json.at("seq").get<std::uint64_t>()};
  if (const auto readings = json.find("readings"); readings != json.end())
    card.readings = readings->get<std::map<std::string, double>>();
  return card;
}

std::vector<store::IndexValue> values_of(const job::JobState& state, const std::string& stream) {
  std::vector<store::IndexValue> out;
  for (const auto& standing : standing_in(state))
    if (auto value = value_of(standing, stream)) out.push_back(std::move(*value));
  return out;
}

std::vector<store::IndexValue> values_of(const job::JobLog& log) {
  return values_of(log.state(), stream_of(log));
}

std::map<std::string, double> last_by_check(const std::vector<store::IndexValue>& values) {
  std::map<std::string, std::pair<std::string, double>> last;
  for (const auto& value : values) {
    auto& [at, number] = last[check_of_series(value.series)];
    if (value.at < at) continue;
    at = value.at;
    number = value.number;
  }
  std::map<std::string, double> out;
  for (const auto& [check, found] : last)
    out[check] = found.second;
  return out;
}

void add_last_reading(const job::JobLog& log, std::size_t replaced_before, store::IndexChange& change) {
  const auto& reading = std::get<job::ReadingTaken>(log.job().file.events.back()).reading;
  const auto& replaced = log.state().replaced;
  for (auto i = replaced_before; i < replaced.size(); ++i)
    add_gone({replaced[i].check, &replaced[i]}, change);
  add_come({reading.check, &reading}, log, change);
}

void add_plan(const job::JobLog& before, const job::JobLog& after, store::IndexChange& change) {
  const auto was = standing_in(before.state()), is = standing_in(after.state());
  std::vector<Standing> gone, come;
  std::set_difference(was.begin(), was.end(), is.begin(), is.end(), std::back_inserter(gone));
  std::set_difference(is.begin(), is.end(), was.begin(), was.end(), std::back_inserter(come));
  for (const auto& standing : gone)
    add_gone(standing, change);
  for (const auto& standing : come)
    add_come(standing, after, change);
}

}  // namespace pumpwright::shop

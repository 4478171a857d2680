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

// A reading that stands, without what is written of it.
struct Standing {
  std::string_view check;
  const job::Reading* reading = nullptr;

  bool operator<(const Standing& other) const {
    return std::tie(check, reading->id) < std::tie(other.check, other.reading->id);
  }
};

std::vector<Standing> standing_in(const job::JobLog& log) {
  std::vector<Standing> out;
  for (const auto& [check, readings] : log.state().standing)
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

JobCard card_of(const job::JobLog& log, const store::StoredEvent& last) {
  const auto& header = log.job().file.header;
  return {.number = header.number,
          .customer = header.customer,
          .pump = header.pump,
          .serial = header.serial,
          .bench = log.job().bench,
          .waiting = log.job().waiting,
          .released = log.job().released,
          .opened = job::format_utc_time(header.opened),
          .last_at = last.accepted_at,
          .last_actor = last.actor,
          .seq = last.seq};
}

store::IndexEntry entry_of(const JobCard& card) {
  const nlohmann::ordered_json fields{{"number", card.number},
                                      {"customer", card.customer},
                                      {"pump", card.pump},
                                      {"serial", card.serial},
                                      {"bench", card.bench},
                                      {"waiting", card.waiting},
                                      {"released", card.released},
                                      {"opened", card.opened},
                                      {"last_at", card.last_at},
                                      {"last_actor", card.last_actor},
                                      {"seq", card.seq}};
  return {.stream = job_stream(card.number),
          .sort_key = card.bench + "\n" + card.opened,
          .fields = fields.dump(),
          .search = card.number + " " + card.customer + " " + card.pump + " " + card.serial,
          .open = !card.released};
}

JobCard card_in(const store::IndexEntry& entry) {
  const auto json = nlohmann::json::parse(entry.fields);
  const auto text = [&](const char* key) { return json.at(key).get<std::string>(); };
  return {.number = text("number"),
          .customer = text("customer"),
          .pump = text("pump"),
          .serial = text("serial"),
          .bench = text("bench"),
          .waiting = text("waiting"),
          .released = json.at("released").get<bool>(),
          .opened = text("opened"),
          .last_at = text("last_at"),
          .last_actor = text("last_actor"),
          .seq = json.at("seq").get<std::uint64_t>()};
}

std::vector<store::IndexValue> values_of(const job::JobLog& log) {
  std::vector<store::IndexValue> out;
  for (const auto& standing : standing_in(log))
    if (auto value = value_of(standing, stream_of(log))) out.push_back(std::move(*value));
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
  const auto was = standing_in(before), is = standing_in(after);
  std::vector<Standing> gone, come;
  std::set_difference(was.begin(), was.end(), is.begin(), is.end(), std::back_inserter(gone));
  std::set_difference(is.begin(), is.end(), was.begin(), was.end(), std::back_inserter(come));
  for (const auto& standing : gone)
    add_gone(standing, change);
  for (const auto& standing : come)
    add_come(standing, after, change);
}

}  // namespace pumpwright::shop

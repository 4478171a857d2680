#include "shop/job_index.h"

#include <algorithm>
#include <numeric>

#include <nlohmann/json.hpp>

namespace pumpwright::shop {
namespace {

constexpr std::string_view prefix = "job/";

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

auto identity(const store::IndexValue& v) {
  return std::tie(v.series, v.ref);
}

}  // namespace

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
  const std::string stream = job_stream(log.job().file.header.number);
  for (const auto& [check, readings] : log.state().standing)
    for (const auto& reading : readings)
      if (const auto number = number_of_reading(reading))
        out.push_back(
            {.stream = stream,
             .series = "check/" + check,
             .at = job::format_utc_time(reading.time),
             .ref = reading.id,
             .number = *number,
             .fields = nlohmann::json{{"actor", reading.actor}, {"instrument", reading.instrument}}.dump()});
  return out;
}

store::IndexChange change_between(const job::JobLog& before, const job::JobLog& after,
                                  const store::StoredEvent& last) {
  store::IndexChange change;
  change.entry = entry_of(card_of(after, last));
  const auto by_identity = [](const auto& a, const auto& b) { return identity(a) < identity(b); };
  auto was = values_of(before), is = values_of(after);
  std::sort(was.begin(), was.end(), by_identity);
  std::sort(is.begin(), is.end(), by_identity);
  std::vector<store::IndexValue> gone;
  std::set_difference(was.begin(), was.end(), is.begin(), is.end(), std::back_inserter(gone), by_identity);
  std::set_difference(is.begin(), is.end(), was.begin(), was.end(), std::back_inserter(change.put_values),
                      by_identity);
  for (const auto& value : gone)
    change.drop_values.push_back({value.series, value.ref});
  return change;
}

}  // namespace pumpwright::shop

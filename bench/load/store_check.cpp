#include "bench/load/store_check.h"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "store/store.h"

namespace pumpwright::bench {
namespace {

struct Place {
  std::string job, device;
  const Acknowledged* event = nullptr;
};

std::map<std::string, Place> by_key(std::span<const Told> told, Faults& faults) {
  std::map<std::string, Place> places;
  for (const auto& tablet : told)
    for (const auto& event : tablet.events)
      if (!places.emplace(event.key, Place{tablet.job, tablet.device, &event}).second)
        faults.add(event.key + " was acknowledged twice");
  return places;
}

bool stands_as_told(const store::StoredEvent& row, const Place& place) {
  const auto& event = *place.event;
  return row.stream == "job/" + place.job && row.device == place.device && row.seq == event.seq &&
         (event.device_seq == 0 || event.device_seq == row.device_seq);
}

// Takes what it finds out of `places`: a second row with the same key is then one that nobody was told of.
void check_row(const store::StoredEvent& row, std::map<std::string, Place>& places, Faults& faults) {
  const auto found = places.find(row.key);
  if (found == places.end())
    return faults.add(
        fmt::format("{} {} ({}) is doubled or was never acknowledged", row.stream, row.seq, row.key));
  if (!stands_as_told(row, found->second))
    faults.add(
        fmt::format("{} stands as {} {}, which is not what was acknowledged", row.key, row.stream, row.seq));
  places.erase(found);
}

}  // namespace

std::vector<store::StoredEvent> check_store(const std::filesystem::path& file, std::span<const JobStart> jobs,
                                            std::span<const Told> told, Faults& faults) {
  auto places = by_key(told, faults);
  std::vector<store::StoredEvent> rows;
  {
    const auto store = store::Store::open(file);
    for (const auto& job : jobs)
      for (auto& row : store->events().read("job/" + job.job, job.seq + 1)) {
        check_row(row, places, faults);
        rows.push_back(std::move(row));
      }
  }
  for (const auto& [key, place] : places)
    faults.add(fmt::format("{} was acknowledged as {} of {} and is lost", key, place.event->seq, place.job));
  for (const auto& problem : store::verify_store_file(file).problems)
    faults.add("the store does not verify: " + problem);
  std::stable_sort(rows.begin(), rows.end(),
                   [](const auto& a, const auto& b) { return a.accepted_at < b.accepted_at; });
  return rows;
}

}  // namespace pumpwright::bench

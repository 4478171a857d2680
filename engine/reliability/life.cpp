#include "engine/reliability/life.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::reliability {

void require_valid(std::span<const Life> lives) {
  if (lives.empty()) throw BadInput({"lives", "", "none", "at least one pump"});
  for (std::size_t i = 0; i < lives.size(); ++i) {
    const Time time = lives[i].time;
    if (!(time >= lifetimes.shortest && time <= lifetimes.longest))
      throw BadInput(
          {fmt::format("lives/{}/time", i), "", fmt::format("{:.9g} s", time.value()),
           "a time above zero; for a pump that failed at start-up the shortest time you can tell"});
  }
}

std::size_t count_of(std::span<const Life> lives, Ending ending) {
  return static_cast<std::size_t>(
      std::count_if(lives.begin(), lives.end(), [&](const Life& life) { return life.ending == ending; }));
}

Time total_time(std::span<const Life> lives) {
  double sum_s = 0;
  for (const Life& life : lives)
    sum_s += life.time.value();
  return seconds(sum_s);
}

std::vector<EndingTime> ending_times(std::span<const Life> lives) {
  std::vector<Life> sorted(lives.begin(), lives.end());
  std::sort(sorted.begin(), sorted.end(), [](const Life& a, const Life& b) { return a.time < b.time; });
  std::vector<EndingTime> times;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    if (times.empty() || times.back().time < sorted[i].time)
      times.push_back({.time = sorted[i].time, .at_risk = sorted.size() - i});
    EndingTime& here = times.back();
    if (sorted[i].ending == Ending::returned) ++here.returned;
    if (sorted[i].ending == Ending::replaced) ++here.replaced;
    if (sorted[i].ending == Ending::running) ++here.running;
  }
  return times;
}

}  // namespace pumpwright::reliability

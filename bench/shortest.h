// The shortest of several runs of the same work: what else the machine did makes a run longer, never shorter.
#pragma once

#include <algorithm>
#include <chrono>
#include <limits>

namespace pumpwright {

template <class Work>
double shortest_s(int repeats, Work work) {
  double best = std::numeric_limits<double>::infinity();
  for (int i = 0; i < repeats; ++i) {
    const auto start = std::chrono::steady_clock::now();
    work();
    best = std::min(best, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
  }
  return best;
}

}  // namespace pumpwright

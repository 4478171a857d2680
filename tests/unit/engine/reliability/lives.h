// Lives written as numbers, so that a test shows what it is about.
#pragma once

#include <initializer_list>
#include <vector>

#include "engine/reliability/life.h"

namespace pumpwright::reliability {

inline std::vector<Life> lives(std::initializer_list<double> returned,
                               std::initializer_list<double> running = {},
                               std::initializer_list<double> replaced = {}) {
  std::vector<Life> list;
  for (const double time : returned)
    list.push_back({seconds(time), Ending::returned});
  for (const double time : running)
    list.push_back({seconds(time), Ending::running});
  for (const double time : replaced)
    list.push_back({seconds(time), Ending::replaced});
  return list;
}

}  // namespace pumpwright::reliability

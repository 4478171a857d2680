// Lives of every sort for the property tests: few or many, tied or not, in any unit of time.
#pragma once

#include <cmath>
#include <vector>

#include <rapidcheck.h>

#include "engine/reliability/life.h"

namespace pumpwright::testing {

inline double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

// 2 to 40 lives; whole numbers, so that some coincide, times a unit between a microsecond and a century.
inline std::vector<reliability::Life> any_lives() {
  using reliability::Ending;
  const int count = *rc::gen::inRange(2, 41);
  const double unit_s = std::pow(10, between(-6, 9));
  std::vector<reliability::Life> lives;
  for (int i = 0; i < count; ++i)
    lives.push_back(
        {seconds(unit_s * *rc::gen::inRange(1, 60)),
         *rc::gen::element(Ending::returned, Ending::returned, Ending::running, Ending::replaced)});
  return lives;
}

inline std::vector<reliability::Life> scaled(std::vector<reliability::Life> lives, double factor) {
  for (auto& life : lives)
    life.time *= factor;
  return lives;
}

}  // namespace pumpwright::testing

// The errors a chain's stations can speak of, and every assumption about which of them are at fault, weighed
// by the readings. Internal: shared by the attribution and the choice of the next measurement.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "engine/assembly/true_attribution.h"
#include "engine/assembly/true_model.h"

namespace pumpwright::true_running {

struct Assumption {
  std::array<int, 2> error{};
  std::size_t count = 0;
  double probability = 0;

  std::span<const int> at_fault() const { return {error.data(), count}; }
};

// Errors: first those of faults_of, then the indicator's at each station.
template <class Chain>
struct WeighedCase {
  LinearModel model;
  Evidence evidence;
  std::vector<Assumption> assumptions;  // most probable first

  std::size_t part_errors() const { return faults_of(Chain{}).size(); }
};

// The stations must be valid.
template <class Chain>
LinearModel linear_model(std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                         const Beliefs& beliefs);
template <class Chain>
WeighedCase<Chain> weigh(std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                         const Beliefs& beliefs);

}  // namespace pumpwright::true_running

// What a station will read once parts have been fitted again, how sure that is, and whether what was then
// read is a surprise.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/assembly/true_attribution.h"

namespace pumpwright::true_running {

template <class Chain>
struct Predicted {
  std::string station;
  Offset<Chain> vector{};
  Covariance2 covariance{};  // of what the parts will do; the next sweep's own is not in it
  Tir tir{};                 // 2 |vector|: of a round, flat surface
  Length u{};  // standard uncertainty of the TIR: along the vector, or the larger axis near zero
  std::optional<Tir> limit{};

  // TIR over its limit; 0 without one.
  double ratio() const { return limit ? tir.value.value() / limit->value.value() : 0; }
};

// Each station as its `refitted` says, by what is believed of the errors. An indicator's own error is not
// foretold.
template <class Chain>
std::vector<Predicted<Chain>> predict(std::span<const Station<Chain>> stations,
                                      const Geometry<Chain>& geometry, const ErrorBelief& errors);

// Largest ratio; 0 when nothing has a limit.
template <class Chain>
double worst_ratio(std::span<const Predicted<Chain>> predicted);

// The same prediction with a known move of the parts added, as a bracket tapped over.
template <class Chain>
Predicted<Chain> moved_by(Predicted<Chain> predicted, const Offset<Chain>& move);

// A sweep taken afterwards, beside what was foretold for it.
template <class Chain>
struct AfterSweep {
  Predicted<Chain> predicted;
  Offset<Chain> actual{};
  Tir actual_tir{};       // 2 |actual|
  double distance = 0;    // dᵀ C⁻¹ d with both covariances added
  bool surprise = false;  // outside the 95 % region: distance > χ²(0.95; 2)
};
template <class Chain>
AfterSweep<Chain> compare(const Predicted<Chain>& predicted, const Station<Chain>& actual);

}  // namespace pumpwright::true_running

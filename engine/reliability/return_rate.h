// Mean time between returns: one number for how often pumps come back, where returns are taken to come at a
// constant rate.
//
// Total time over returns, with bounds from χ² as for a time-terminated test: low 2T/χ²(1-α/2; 2r+2), high
// 2T/χ²(α/2; 2r) (NIST/SEMATECH e-Handbook 8.4.5.1). Without a return there is no estimate and no upper
// bound, but there still is a lower one.
#pragma once

#include <optional>
#include <span>

#include "engine/reliability/life.h"

namespace pumpwright::reliability {

struct ReturnRate {
  Time total;  // time of all pumps together
  std::size_t returned = 0;
  std::optional<Time> mean{};  // between returns
  Time low;                    // two-sided bounds
  std::optional<Time> high{};
};

// 0 < confidence < 1. Throws BadInput for lives that are not valid.
ReturnRate return_rate(std::span<const Life> lives, double confidence = 0.95);

}  // namespace pumpwright::reliability

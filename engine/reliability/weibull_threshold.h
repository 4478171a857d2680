// Whether there is a time in which nothing comes back: the Weibull distribution with a third parameter, a
// threshold that is taken off every time.
//
// The likelihood grows without bound as the threshold nears the first return while the shape is below 1, so
// only a local maximum with a shape of at least 1 counts (R. L. Smith, Biometrika 72 (1985) 67-90;
// remembered); often there is none, and then the data do not say. The interval of the threshold is the
// profile-likelihood one, cut off at zero; where zero lies in it a threshold is not proven.
#pragma once

#include <optional>

#include "engine/reliability/weibull.h"

namespace pumpwright::reliability {

struct ThresholdFit {
  Time threshold;          // 0 to below the first return
  Time low;                // of the interval, >= 0
  Time high;               // at most the first return
  bool is_proven = false;  // zero lies outside the interval
  WeibullFit fit;          // with the threshold taken off
};

// Nothing when there are fewer than three returns, or the likelihood has no such maximum. Throws BadInput for
// lives that are not valid.
std::optional<ThresholdFit> fit_threshold(std::span<const Life> lives, double confidence = 0.95);

}  // namespace pumpwright::reliability

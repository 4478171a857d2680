// How pumps come back over time as one curve: the Weibull distribution by maximum likelihood, with pumps that
// are still out.
//
// Part still out at t: exp(-(t/η)^β). A shape β below 1 means that most returns come early (something at the
// bench), 1 that they come at a constant rate (chance), above 1 that they come late (wear). η is the time by
// which 63.2 % have come back.
//
// With r returns: Σ t^β ln t / Σ t^β - 1/β - (1/r) Σ_returned ln t = 0 and η = (Σ t^β / r)^(1/β) (the
// standard likelihood equations; they give the figures of NIST/SEMATECH e-Handbook 8.4.1.3). The left side
// rises with β, so there is one root and Newton within a bracket finds it to rounding.
#pragma once

#include <optional>

#include "engine/reliability/weibull_data.h"

namespace pumpwright::reliability {

struct WeibullFit {
  double shape = 0;           // β
  Time scale;                 // η, counted from the threshold
  double log_likelihood = 0;  // with times in seconds
  // Covariance of (ln η, ln β) from the observed information.
  double variance_log_scale = 0;
  double variance_log_shape = 0;
  double covariance = 0;
};

// Nothing when no life returned, or when all returns lie at the longest time (the likelihood then has no
// highest point).
std::optional<WeibullFit> fit_weibull(const WeibullData& data);

// Time by which `part` of the pumps have come back, threshold included: the B10 life for 0.1. 0 < part < 1.
Time life_at(const WeibullData& data, const WeibullFit& fit, double part);

// Part still out at `time`, 0 to 1.
double surviving_at(const WeibullData& data, const WeibullFit& fit, Time time);

}  // namespace pumpwright::reliability

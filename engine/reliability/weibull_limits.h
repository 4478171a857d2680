// How well the figures of a Weibull fit are known: profile-likelihood intervals (profile_limit.h) of the
// shape, the scale and the time by which a given part has come back.
//
// They are exact in no sample, but hold their confidence well down to a handful of returns, where intervals
// of the form "estimate ± z standard errors" do not (W. Q. Meeker and L. A. Escobar, Statistical Methods for
// Reliability Data, ch. 8; remembered).
#pragma once

#include "engine/reliability/weibull.h"

namespace pumpwright::reliability {

struct ShapeLimits {
  double low = 0;
  double high = 0;
};

struct TimeLimits {
  Time low;
  Time high;  // infinite where the data set no upper end
};

// `fit` must be the fit of `data`; 0 < confidence < 1, 0 < part < 1.
ShapeLimits shape_limits(const WeibullData& data, const WeibullFit& fit, double confidence = 0.95);
TimeLimits scale_limits(const WeibullData& data, const WeibullFit& fit, double confidence = 0.95);
// Of life_at(data, fit, part), threshold included and taken as known.
TimeLimits life_limits(const WeibullData& data, const WeibullFit& fit, double part, double confidence = 0.95);

}  // namespace pumpwright::reliability

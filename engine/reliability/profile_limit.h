// Where a profile likelihood has fallen far enough: the end of a likelihood interval.
//
// The interval of a parameter at confidence c holds the values whose best log-likelihood, over everything
// else that is unknown, lies at most z²/2 below the highest, z the normal quantile at (1+c)/2 (Wilks, Ann.
// Math. Stat. 9 (1938) 60-62). It does not depend on how the parameter is written and is not symmetric where
// the data are not.
#pragma once

#include <functional>
#include <optional>

namespace pumpwright::reliability {

struct ProfilePoint {
  double log_likelihood = 0;
  double slope = 0;  // its derivative by the parameter
};

struct ProfileMaximum {
  double at = 0;              // the parameter's estimate
  double log_likelihood = 0;  // there
};

// The parameter on the side of `first_step` (signed, about one standard error times z) at which the profile
// is z²/2 below the maximum; nothing when it stays above within `reach` of the estimate. Newton on the root
// of the fall, which is nearly a straight line, kept inside a bracket; to 1e-9 of `first_step`.
std::optional<double> profile_limit(const std::function<ProfilePoint(double)>& profile,
                                    const ProfileMaximum& maximum, double first_step, double z, double reach);

}  // namespace pumpwright::reliability

// Whether a reading's effect on coming back stays the same with age, which fit_cox supposes.
//
// Score test of a term reading·g(age) beside the fit, g being one minus the Kaplan-Meier curve just before
// each return: P. M. Grambsch and T. M. Therneau, Biometrika 81 (1994) 515-526, with the covariance of every
// time of return as it is, not their average. The score is the sum of Schoenfeld residuals weighted with g.
// (Remembered; compared with R's cox.zph.)
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/reliability/cox.h"

namespace pumpwright::reliability {

struct ProportionalHazards {
  std::vector<ChiSquareTest> readings;  // each reading by itself, in the order of the columns
  ChiSquareTest all;                    // all together
};

// A small p says that the ratio of a reading changes with age, so that one number for it misleads. Nothing
// when fit_cox gives nothing, or all returns came at one age. Throws what fit_cox throws.
std::optional<ProportionalHazards> proportional_hazards(std::span<const Life> lives, const Readings& readings,
                                                        Ties ties = Ties::efron);

}  // namespace pumpwright::reliability

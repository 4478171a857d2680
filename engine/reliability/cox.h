// Which reading at the build goes with coming back early: proportional hazards (Cox).
//
// At every age the rate of return is some rate that all pumps share times exp(b·reading), summed over the
// readings; exp(b) is the ratio of rates for one unit more. The shared rate is left open, so no shape of the
// curve is supposed. D. R. Cox, J. R. Stat. Soc. B 34 (1972) 187-220. Returns at the same time: Efron, J. Am.
// Stat. Assoc. 72 (1977) 557-565 (the default, better where many coincide), or Breslow, Biometrics 30 (1974)
// 89-99. Newton with halved steps; readings are centred and scaled inside, so units do not matter. All
// formulas remembered; compared with R's coxph.
//
// A reading that goes with early return need not be its cause.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "engine/reliability/comparison.h"
#include "engine/reliability/life.h"

namespace pumpwright::reliability {

enum class Ties { efron, breslow };

// One row for each life, in their order, row by row; pure numbers, each column in a unit of its own.
struct Readings {
  std::span<const double> values;
  std::size_t columns = 0;  // 1 to 50
};

struct CoxCoefficient {
  double value = 0;           // b, per unit of the reading
  double standard_error = 0;  // from the observed information
  double ratio = 1;           // exp(b)
  double ratio_low = 0;       // exp(b ± z·standard error)
  double ratio_high = 0;
  double p = 1;  // two-sided, Wald
};

struct CoxFit {
  std::vector<CoxCoefficient> coefficients;  // in the order of the columns
  std::size_t returned = 0;
  double log_likelihood = 0;       // partial, at the maximum
  double log_likelihood_null = 0;  // with no reading mattering
  ChiSquareTest ratio_test;        // twice the difference: whether any reading matters
  ChiSquareTest score_test;        // the same question, from the slope at zero
};

// Nothing when nothing returned, or when the likelihood rises for ever (a reading that parts early returns
// from the rest without overlap). Throws BadInput for lives that are not valid, "readings" of the wrong size,
// "readings/4/1" (row and column from 0) that is not finite, and "readings/1" for a column that does not vary
// or is made up of the others.
std::optional<CoxFit> fit_cox(std::span<const Life> lives, const Readings& readings, Ties ties = Ties::efron,
                              double confidence = 0.95);

}  // namespace pumpwright::reliability

// Do groups of pumps come back differently, or could chance alone have made the difference?
//
// Log-rank: at every time of a return, how many returns each group would have had if all groups came back
// alike; the sum of what is over and short, against its covariance with ties as in a draw without putting
// back (Mantel, Cancer Chemother. Rep. 50 (1966) 163-170; Peto and Peto, J. R. Stat. Soc. A 135 (1972)
// 185-207). It supposes no shape of the curve.
//
// Likelihood ratio on the Weibull: twice the gain in log-likelihood of a curve for each group over one for
// all; χ² with 2(groups - 1) degrees of freedom when the groups are alike. It sees a difference in shape too.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/reliability/life.h"

namespace pumpwright::reliability {

using Lives = std::vector<Life>;

// A test figure with the chance of one at least this large when there is no difference.
struct ChiSquareTest {
  double chi_square = 0;
  double dof = 0;
  double p = 1;
};

struct GroupReturns {
  std::size_t units = 0;
  std::size_t returned = 0;
  double expected = 0;  // returns if all groups came back alike
};

struct LogRank {
  std::vector<GroupReturns> groups;  // in the order given
  ChiSquareTest test;
};

// Two groups or more, each with at least one life. Throws BadInput ("groups", "groups/1/…"). Without any
// return the test says nothing: χ² = 0, p = 1.
LogRank log_rank(std::span<const Lives> groups);

// Nothing when a group, or all together, has no Weibull fit.
std::optional<ChiSquareTest> weibull_ratio(std::span<const Lives> groups);

}  // namespace pumpwright::reliability

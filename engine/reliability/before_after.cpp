#include "engine/reliability/before_after.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "engine/metrology/quantiles.h"
#include "engine/reliability/cox_sums.h"
#include "engine/reliability/profile_limit.h"

namespace pumpwright::reliability {
namespace {

constexpr double reach_log = 30;  // a ratio of e^30 stands for "one side has no return"

// Partial likelihood of one difference between two groups, by the logarithm of the ratio.
class RatioLikelihood {
 public:
  RatioLikelihood(const Lives& before, const Lives& after) {
    Lives all = before;
    all.insert(all.end(), after.begin(), after.end());
    std::vector<double> is_after(before.size(), 0.0);
    is_after.resize(all.size(), 1.0);
    table_ = cox_table(all, {.values = is_after, .columns = 1});
  }

  ProfilePoint operator()(double log_ratio) const {
    const CoxTerm total =
        cox_total(table_, Eigen::VectorXd::Constant(1, log_ratio * table_.spread[0]), Ties::efron);
    return {.log_likelihood = total.log_likelihood, .slope = total.score[0] * table_.spread[0]};
  }

  // Fisher information of the logarithm of the ratio.
  double information(double log_ratio) const {
    const CoxTerm total =
        cox_total(table_, Eigen::VectorXd::Constant(1, log_ratio * table_.spread[0]), Ties::efron);
    return total.information(0, 0) * table_.spread[0] * table_.spread[0];
  }

  // The best ratio; ±reach where the likelihood only rises towards it.
  double best() const {
    const auto maximum = cox_maximum(table_, Ties::efron);
    if (maximum) {
      const double log_ratio = maximum->coefficients[0] / table_.spread[0];
      if (std::fabs(log_ratio) < reach_log / 2) return log_ratio;
    }
    return (*this)(0).slope < 0 ? -reach_log : reach_log;
  }

 private:
  CoxTable table_;
};

double ratio_of(double log_ratio) {
  if (log_ratio <= -reach_log) return 0;
  return log_ratio >= reach_log ? std::numeric_limits<double>::infinity() : std::exp(log_ratio);
}

void add_ratio(const Lives& before, const Lives& after, double confidence, BeforeAfter& result) {
  const RatioLikelihood likelihood(before, after);
  if (!(likelihood.information(0) > 0)) return;  // no return fell in a time when both sides were out
  const double best = likelihood.best();
  const ProfileMaximum maximum{.at = best, .log_likelihood = likelihood(best).log_likelihood};
  const double z = normal_quantile((1 + confidence) / 2);
  const bool is_open = std::fabs(best) >= reach_log;
  const double step = is_open ? 1 : z / std::sqrt(likelihood.information(best));
  const auto low = best <= -reach_log ? std::optional<double>()
                                      : profile_limit(likelihood, maximum, -step, z, 2 * reach_log);
  const auto high = best >= reach_log ? std::optional<double>()
                                      : profile_limit(likelihood, maximum, step, z, 2 * reach_log);
  result.ratio = ratio_of(best);
  result.ratio_low = low ? std::exp(*low) : 0;
  result.ratio_high = high ? std::exp(*high) : std::numeric_limits<double>::infinity();
}

void judge(std::size_t returned, BeforeAfter& result) {
  if (returned < returns_to_compare) return;
  result.reason = ChangeReason::one_in_the_interval;
  if (result.ratio_high < 1) {
    result.change = Change::fewer_returns;
    result.reason = ChangeReason::interval_below_one;
  } else if (result.ratio_low > 1) {
    result.change = Change::more_returns;
    result.reason = ChangeReason::interval_above_one;
  }
}

Settling settling_of(const LogRank& seen, double ratio, const TestPlan& plan) {
  const auto units = static_cast<double>(seen.groups[0].units + seen.groups[1].units);
  const auto returned = static_cast<double>(seen.groups[0].returned + seen.groups[1].returned);
  const double share = static_cast<double>(seen.groups[1].units) / units;
  Settling s{.ratio = ratio};
  s.returns_needed = returns_to_settle(ratio, share, plan);
  s.power = power_with(returned, ratio, share, plan.confidence);
  const double more = std::max(0.0, std::ceil(s.returns_needed - returned));
  s.returns_more = static_cast<std::size_t>(more);
  if (returned > 0) s.pumps_more = static_cast<std::size_t>(std::ceil(more * units / returned));
  return s;
}

}  // namespace

BeforeAfter before_after(const Lives& before, const Lives& after, double ratio_to_prove,
                         const TestPlan& plan) {
  BeforeAfter result;
  result.log_rank = log_rank(std::array{before, after});
  result.settling = settling_of(result.log_rank, ratio_to_prove, plan);
  result.ratio_high = std::numeric_limits<double>::infinity();
  const std::size_t returned = result.log_rank.groups[0].returned + result.log_rank.groups[1].returned;
  if (returned == 0) return result;
  add_ratio(before, after, plan.confidence, result);
  judge(returned, result);
  return result;
}

}  // namespace pumpwright::reliability

#include "engine/reliability/before_after.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "engine/metrology/quantiles.h"
#include "engine/reliability/profile_limit.h"

namespace pumpwright::reliability {
namespace {

constexpr double reach_log = 30;  // a ratio of e^30 stands for "one side has no return"
constexpr int steps_max = 200;
constexpr double precision = 1e-13;  // of the logarithm of the ratio

// One time at which pumps came back: who was out on either side, and who came back then.
struct RiskSet {
  double before = 0, after = 0;
  double returned_before = 0, returned_after = 0;

  double returned() const { return returned_before + returned_after; }
};

std::vector<RiskSet> risk_sets_of(const Lives& before, const Lives& after) {
  const auto early = ending_times(before), late = ending_times(after);
  std::vector<RiskSet> sets;
  auto b = early.begin(), a = late.begin();
  while (b != early.end() || a != late.end()) {
    const bool from_before = a == late.end() || (b != early.end() && b->time <= a->time);
    const bool from_after = b == early.end() || (a != late.end() && a->time <= b->time);
    // Who has not ended yet is out still.
    RiskSet set{.before = b == early.end() ? 0 : static_cast<double>(b->at_risk),
                .after = a == late.end() ? 0 : static_cast<double>(a->at_risk)};
    if (from_before) set.returned_before = static_cast<double>((b++)->returned);
    if (from_after) set.returned_after = static_cast<double>((a++)->returned);
    if (set.returned() > 0) sets.push_back(set);
  }
  return sets;
}

// Partial likelihood of one difference between two groups, by the logarithm of the ratio: the fit of cox.h
// for a reading that is 0 before and 1 after, whose sums over who is out are counts. Ties by Efron.
class RatioLikelihood {
 public:
  RatioLikelihood(const Lives& before, const Lives& after) : sets_(risk_sets_of(before, after)) {}

  ProfilePoint operator()(double log_ratio) const {
    const Sums sums = at(log_ratio);
    return {.log_likelihood = sums.log_likelihood, .slope = sums.slope};
  }

  // Fisher information of the logarithm of the ratio.
  double information(double log_ratio) const { return at(log_ratio).information; }

  // The best ratio; ±reach where the likelihood only rises towards it.
  double best() const {
    if (at(-reach_log / 2).slope < 0) return -reach_log;
    if (at(reach_log / 2).slope > 0) return reach_log;
    return root_of_slope();
  }

 private:
  struct Sums {
    double log_likelihood = 0, slope = 0, information = 0;
  };

  Sums at(double log_ratio) const {
    // The larger of both weights is one, so that neither overflows; the factor taken out comes back as a sum.
    const double taken_out = std::max(log_ratio, 0.0);
    const double weight_before = std::exp(-taken_out), weight_after = std::exp(log_ratio - taken_out);
    Sums sums;
    for (const RiskSet& set : sets_) {
      const double returned = set.returned();
      sums.log_likelihood += set.returned_after * log_ratio - returned * taken_out;
      sums.slope += set.returned_after;
      for (int gone = 0; gone < static_cast<int>(returned); ++gone) {
        const double share = gone / returned;
        const double early = weight_before * (set.before - share * set.returned_before);
        const double late = weight_after * (set.after - share * set.returned_after);
        const double part = late / (early + late);
        sums.log_likelihood -= std::log(early + late);
        sums.slope -= part;
        sums.information += part * (1 - part);
      }
    }
    return sums;
  }

  // The slope falls everywhere; Newton inside a bracket.
  double root_of_slope() const {
    double low = -reach_log / 2, high = reach_log / 2, log_ratio = 0;
    for (int step = 0; step < steps_max; ++step) {
      const Sums sums = at(log_ratio);
      (sums.slope > 0 ? low : high) = log_ratio;
      double next = log_ratio + sums.slope / sums.information;
      if (!(next > low && next < high)) next = 0.5 * (low + high);
      if (std::fabs(next - log_ratio) < precision) return next;
      log_ratio = next;
    }
    return log_ratio;
  }

  std::vector<RiskSet> sets_;
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

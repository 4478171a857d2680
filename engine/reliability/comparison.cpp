#include "engine/reliability/comparison.h"

#include <algorithm>

#include <Eigen/Dense>
#include <fmt/format.h>

#include "engine/quantity/bad_input.h"
#include "engine/reliability/p_value.h"
#include "engine/reliability/weibull.h"

namespace pumpwright::reliability {
namespace {

constexpr double rank_threshold =
    1e-10;  // of the largest variance: a group that was never at risk with others

void require_groups(std::span<const Lives> groups) {
  if (groups.size() < 2)
    throw BadInput({"groups", "", fmt::format("{} groups", groups.size()), "two groups or more"});
  for (std::size_t g = 0; g < groups.size(); ++g) {
    try {
      require_valid(groups[g]);
    } catch (const BadInput& error) {
      auto what = error.what_was_wrong();
      what.field = fmt::format("groups/{}/{}", g, what.field);
      throw BadInput(what);
    }
  }
}

Lives all_of(std::span<const Lives> groups) {
  Lives all;
  for (const Lives& group : groups)
    all.insert(all.end(), group.begin(), group.end());
  return all;
}

// One group's times, walked through once beside the times of all.
class Walk {
 public:
  explicit Walk(std::span<const Life> lives) : times_(ending_times(lives)) {}

  // How many lasted to `time` and how many came back then; times must be asked in ascending order.
  EndingTime at(Time time) {
    while (next_ < times_.size() && times_[next_].time < time)
      ++next_;
    if (next_ == times_.size()) return {};
    EndingTime here = times_[next_];
    if (here.time > time) here.returned = 0;
    return here;
  }

 private:
  std::vector<EndingTime> times_;
  std::size_t next_ = 0;
};

}  // namespace

LogRank log_rank(std::span<const Lives> groups) {
  require_groups(groups);
  const auto count = static_cast<Eigen::Index>(groups.size());
  std::vector<Walk> walks;
  LogRank result;
  for (const Lives& group : groups) {
    walks.emplace_back(group);
    result.groups.push_back({.units = group.size(), .returned = count_of(group, Ending::returned)});
  }
  Eigen::VectorXd expected = Eigen::VectorXd::Zero(count);
  Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(count, count);
  Eigen::VectorXd share(count);  // of those at risk
  for (const EndingTime& here : ending_times(all_of(groups))) {
    if (here.returned == 0) continue;
    const auto n = static_cast<double>(here.at_risk);
    const auto d = static_cast<double>(here.returned);
    for (Eigen::Index g = 0; g < count; ++g)
      share[g] = static_cast<double>(walks[static_cast<std::size_t>(g)].at(here.time).at_risk) / n;
    expected += d * share;
    if (here.at_risk == 1) continue;
    const double draw = d * (n - d) / (n - 1);
    covariance += draw * (Eigen::MatrixXd(share.asDiagonal()) - share * share.transpose());
  }
  Eigen::VectorXd over(count);
  for (Eigen::Index g = 0; g < count; ++g) {
    auto& group = result.groups[static_cast<std::size_t>(g)];
    group.expected = expected[g];
    over[g] = static_cast<double>(group.returned) - expected[g];
  }
  Eigen::CompleteOrthogonalDecomposition<Eigen::MatrixXd> solver;
  solver.setThreshold(rank_threshold);
  solver.compute(covariance);
  result.test.dof = static_cast<double>(solver.rank());
  if (solver.rank() == 0) return result;
  result.test.chi_square = std::max(0.0, over.dot(solver.solve(over)));
  result.test.p = chi_square_beyond(result.test.chi_square, result.test.dof);
  return result;
}

std::optional<ChiSquareTest> weibull_ratio(std::span<const Lives> groups) {
  require_groups(groups);
  const auto together = fit_weibull(WeibullData(all_of(groups)));
  if (!together) return std::nullopt;
  double gain = -together->log_likelihood;
  for (const Lives& group : groups) {
    const auto fit = fit_weibull(WeibullData(group));
    if (!fit) return std::nullopt;
    gain += fit->log_likelihood;
  }
  ChiSquareTest test{.chi_square = std::max(0.0, 2 * gain),
                     .dof = 2 * (static_cast<double>(groups.size()) - 1)};
  test.p = chi_square_beyond(test.chi_square, test.dof);
  return test;
}

}  // namespace pumpwright::reliability

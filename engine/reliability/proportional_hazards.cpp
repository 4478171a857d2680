#include "engine/reliability/proportional_hazards.h"

#include <algorithm>
#include <iterator>

#include "engine/reliability/cox_sums.h"
#include "engine/reliability/p_value.h"
#include "engine/reliability/survival_curve.h"

namespace pumpwright::reliability {
namespace {

constexpr double smallest_share = 1e-10;  // of the information that the age term adds

// Part no longer out just before a time of return.
double gone_before(const SurvivalCurve& curve, double time_s) {
  const auto step =
      std::lower_bound(curve.steps.begin(), curve.steps.end(), time_s,
                       [](const CurveStep& here, double t_s) { return here.time.value() < t_s; });
  return step == curve.steps.begin() ? 0 : 1 - std::prev(step)->surviving;
}

// Sums over the times of return of score and information, weighted with powers of g.
struct AgeSums {
  Eigen::VectorXd score;  // Σ g·U
  Eigen::MatrixXd plain;  // Σ I
  Eigen::MatrixXd mixed;  // Σ g·I
  Eigen::MatrixXd aged;   // Σ g²·I
};

AgeSums age_sums(const CoxTable& table, const CoxMaximum& maximum, const SurvivalCurve& curve, Ties ties) {
  std::vector<CoxTerm> terms;
  for_each_return_time(table, maximum.coefficients, ties,
                       [&](const CoxTerm& term) { terms.push_back(term); });
  // The test does not change when a constant is added to g; about its mean, less is lost to rounding.
  double mean = 0;
  for (const CoxTerm& term : terms)
    mean += static_cast<double>(term.returned) * gone_before(curve, term.time_s);
  mean /= static_cast<double>(maximum.total.returned);
  const Eigen::Index p = table.readings.cols();
  AgeSums s{.score = Eigen::VectorXd::Zero(p),
            .plain = Eigen::MatrixXd::Zero(p, p),
            .mixed = Eigen::MatrixXd::Zero(p, p),
            .aged = Eigen::MatrixXd::Zero(p, p)};
  for (const CoxTerm& term : terms) {
    const double g = gone_before(curve, term.time_s) - mean;
    s.score += g * term.score;
    s.plain += term.information;
    s.mixed += g * term.information;
    s.aged += g * g * term.information;
  }
  return s;
}

ChiSquareTest test_of(double chi_square, double dof) {
  return {.chi_square = chi_square, .dof = dof, .p = chi_square_beyond(std::max(0.0, chi_square), dof)};
}

}  // namespace

std::optional<ProportionalHazards> proportional_hazards(std::span<const Life> lives, const Readings& readings,
                                                        Ties ties) {
  const CoxTable table = cox_table(lives, readings);
  const auto maximum = cox_maximum(table, ties);
  if (!maximum) return std::nullopt;
  const AgeSums s = age_sums(table, *maximum, survival_curve(lives), ties);
  // What the age terms know beyond the readings themselves.
  const Eigen::MatrixXd own = s.aged - s.mixed * s.plain.ldlt().solve(s.mixed);
  const double scale = maximum->total.information.diagonal().maxCoeff();
  if (own.diagonal().minCoeff() <= smallest_share * scale) return std::nullopt;
  ProportionalHazards result;
  for (Eigen::Index j = 0; j < own.cols(); ++j)
    result.readings.push_back(test_of(s.score[j] * s.score[j] / own(j, j), 1));
  result.all = test_of(s.score.dot(own.ldlt().solve(s.score)), static_cast<double>(own.cols()));
  return result;
}

}  // namespace pumpwright::reliability

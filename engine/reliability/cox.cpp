#include "engine/reliability/cox.h"

#include <algorithm>
#include <cmath>

#include "engine/metrology/quantiles.h"
#include "engine/reliability/cox_sums.h"
#include "engine/reliability/p_value.h"

namespace pumpwright::reliability {
namespace {

ChiSquareTest test_of(double chi_square, std::size_t dof) {
  ChiSquareTest test{.chi_square = std::max(0.0, chi_square), .dof = static_cast<double>(dof)};
  test.p = chi_square_beyond(test.chi_square, test.dof);
  return test;
}

CoxCoefficient coefficient(double value, double standard_error, double z) {
  return {.value = value,
          .standard_error = standard_error,
          .ratio = std::exp(value),
          .ratio_low = std::exp(value - z * standard_error),
          .ratio_high = std::exp(value + z * standard_error),
          .p = normal_two_sided(value / standard_error)};
}

}  // namespace

std::optional<CoxFit> fit_cox(std::span<const Life> lives, const Readings& readings, Ties ties,
                              double confidence) {
  const CoxTable table = cox_table(lives, readings);
  const auto maximum = cox_maximum(table, ties);
  if (!maximum) return std::nullopt;
  const CoxTerm null = cox_total(table, Eigen::VectorXd::Zero(table.readings.cols()), ties);
  CoxFit fit{
      .coefficients = {},
      .returned = maximum->total.returned,
      .log_likelihood = maximum->total.log_likelihood,
      .log_likelihood_null = null.log_likelihood,
      .ratio_test = test_of(2 * (maximum->total.log_likelihood - null.log_likelihood), readings.columns),
      .score_test = test_of(null.score.dot(null.information.ldlt().solve(null.score)), readings.columns)};
  const Eigen::MatrixXd covariance = maximum->total.information.ldlt().solve(
      Eigen::MatrixXd::Identity(table.readings.cols(), table.readings.cols()));
  const double z = normal_quantile((1 + confidence) / 2);
  for (Eigen::Index j = 0; j < table.readings.cols(); ++j)
    fit.coefficients.push_back(coefficient(maximum->coefficients[j] / table.spread[j],
                                           std::sqrt(covariance(j, j)) / table.spread[j], z));
  return fit;
}

}  // namespace pumpwright::reliability

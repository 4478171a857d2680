// Linear least squares with covariance: the one fit behind sweeps and lines.
//
// Householder QR of the design matrix with the observations as one more column; the normal equations are
// never formed. Rows are taken in blocks, so memory does not grow with their number. Checked against the NIST
// StRD linear regression sets (tests/reference/engine/metrology).
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace pumpwright {

// y ≈ X β. Pure numbers: units are those of the caller's columns.
struct LeastSquares {
  std::vector<double> coefficients;  // β, one per column
  std::vector<double> cofactor;  // (XᵀX)⁻¹, row by row; times the variance of one observation it is cov(β)
  double residual_sum_of_squares = 0;  // Σ (y_i - x_iᵀβ)²
  std::size_t count = 0;               // observations

  std::size_t columns() const { return coefficients.size(); }
  std::size_t dof() const { return count - columns(); }
  // s = sqrt(RSS/dof); absent when no degree of freedom is left.
  std::optional<double> residual_sd() const;
  // s · sqrt(cofactor_jj); absent when no degree of freedom is left.
  std::optional<double> standard_error(std::size_t column) const;
};

// Fits `observed` (n values) by `design` (n rows of `columns` values, row by row); design.size() ==
// n·columns. Throws BadInput when n < columns, a value is not finite, or the columns are linearly dependent
// to working accuracy
// (|R_jj| at most 1e-13 of its column's length).
LeastSquares fit_least_squares(std::span<const double> design, std::size_t columns,
                               std::span<const double> observed);

}  // namespace pumpwright

#include "engine/metrology/least_squares.h"

#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "engine/metrology/qr_accumulator.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr double dependent_below = 1e-13;

void require_finite(std::span<const double> values, const char* field) {
  for (const double v : values) {
    if (std::isfinite(v)) continue;
    throw BadInput(
        {.field = field, .place = "", .value = fmt::format("{}", v), .expected = "finite numbers"});
  }
}

QrAccumulator factor(std::span<const double> design, std::size_t columns, std::span<const double> observed) {
  QrAccumulator qr(columns + 1, observed.size());
  std::vector<double> row(columns + 1);
  for (std::size_t i = 0; i < observed.size(); ++i) {
    for (std::size_t j = 0; j < columns; ++j)
      row[j] = design[i * columns + j];
    row[columns] = observed[i];
    qr.add(row);
  }
  qr.finish();
  return qr;
}

void require_independent(const QrAccumulator& qr, std::size_t columns) {
  for (std::size_t j = 0; j < columns; ++j) {
    double squares = 0;
    for (std::size_t i = 0; i <= j; ++i)
      squares += qr.r(i, j) * qr.r(i, j);
    if (std::fabs(qr.r(j, j)) > dependent_below * std::sqrt(squares)) continue;
    throw BadInput({.field = "least squares",
                    .place = "",
                    .value = fmt::format("column {} follows from the columns before it", j + 1),
                    .expected = "columns that are linearly independent"});
  }
}

std::vector<double> back_substituted(const QrAccumulator& qr, std::size_t columns) {
  std::vector<double> beta(columns);
  for (std::size_t i = columns; i-- > 0;) {
    double sum = qr.r(i, columns);
    for (std::size_t k = i + 1; k < columns; ++k)
      sum -= qr.r(i, k) * beta[k];
    beta[i] = sum / qr.r(i, i);
  }
  return beta;
}

// (XᵀX)⁻¹ = T Tᵀ.
std::vector<double> cofactor_of(const std::vector<double>& t, std::size_t columns) {
  std::vector<double> out(columns * columns);
  for (std::size_t i = 0; i < columns; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = 0;
      for (std::size_t k = i; k < columns; ++k)
        sum += t[i * columns + k] * t[j * columns + k];
      out[i * columns + j] = out[j * columns + i] = sum;
    }
  }
  return out;
}

}  // namespace

std::optional<double> LeastSquares::residual_sd() const {
  if (dof() == 0) return std::nullopt;
  return std::sqrt(residual_sum_of_squares / static_cast<double>(dof()));
}

std::optional<double> LeastSquares::standard_error(std::size_t column) const {
  assert(column < columns());
  const auto s = residual_sd();
  if (!s) return std::nullopt;
  return *s * std::sqrt(cofactor[column * columns() + column]);
}

LeastSquares fit_least_squares(std::span<const double> design, std::size_t columns,
                               std::span<const double> observed) {
  assert(columns > 0 && design.size() == observed.size() * columns);
  if (observed.size() < columns) {
    throw BadInput({.field = "least squares",
                    .place = "",
                    .value = fmt::format("{} observations for {} coefficients", observed.size(), columns),
                    .expected = "at least as many observations as coefficients"});
  }
  require_finite(design, "design matrix");
  require_finite(observed, "observations");

  const QrAccumulator qr = factor(design, columns, observed);
  require_independent(qr, columns);
  LeastSquares fit;
  fit.count = observed.size();
  fit.coefficients = back_substituted(qr, columns);
  fit.cofactor = cofactor_of(qr.inverse(columns), columns);
  fit.residual_sum_of_squares = qr.r(columns, columns) * qr.r(columns, columns);
  return fit;
}

}  // namespace pumpwright

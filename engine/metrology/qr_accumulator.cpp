#include "engine/metrology/qr_accumulator.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <Eigen/Core>

namespace pumpwright {
namespace {

constexpr std::size_t block_rows = 128;

using Column = Eigen::Map<Eigen::VectorXd>;

// Reflects `below` (a column from its diagonal element down) onto the diagonal, and the columns right of it
// with it. H = I - tau v vᵀ with v₀ = 1, tau = (beta - alpha)/beta (Golub and Van Loan, Matrix
// Computations, 5.1; LAPACK dlarfg). Eigen's own HouseholderQR does the same, but its general matrix products
// cost more than the arithmetic of a sweep.
void reflect(std::span<double> block, std::size_t lead, std::size_t rows, std::size_t columns,
             std::size_t k) {
  const auto length = static_cast<Eigen::Index>(rows - k);
  const auto column = [&](std::size_t j) { return Column(&block[j * lead + k], length); };
  Column below = column(k);
  auto v = below.tail(length - 1);
  const double alpha = below[0];
  const double rest = v.squaredNorm();
  if (rest == 0) return;
  const double beta = -std::copysign(std::sqrt(alpha * alpha + rest), alpha);
  const double tau = (beta - alpha) / beta;
  v *= 1 / (alpha - beta);
  for (std::size_t j = k + 1; j < columns; ++j) {
    Column other = column(j);
    const double w = tau * (other[0] + v.dot(other.tail(length - 1)));
    other[0] -= w;
    other.tail(length - 1) -= w * v;
  }
  below[0] = beta;
  v.setZero();
}

}  // namespace

QrAccumulator::QrAccumulator(std::size_t columns, std::size_t rows_expected)
    : columns_(columns),
      lead_(rows_expected <= block_rows ? std::max(rows_expected, columns + 1) : columns + block_rows),
      block_(columns_ * lead_, 0.0) {}

void QrAccumulator::add(std::span<const double> row) {
  assert(row.size() == columns_);
  if (filled_ == lead_) reduce();
  for (std::size_t j = 0; j < columns_; ++j)
    block_[j * lead_ + filled_] = row[j];
  ++filled_;
}

void QrAccumulator::reduce() {
  const std::size_t steps = std::min(columns_, filled_);
  for (std::size_t k = 0; k < steps; ++k)
    reflect(block_, lead_, filled_, columns_, k);
  filled_ = steps;
}

void QrAccumulator::finish() {
  if (filled_ > 0) reduce();
}

std::vector<double> QrAccumulator::inverse(std::size_t size) const {
  std::vector<double> t(size * size, 0.0);
  // Row by row from the last: T_i = (e_i - Σ_{k>i} R_ik T_k) / R_ii.
  for (std::size_t i = size; i-- > 0;) {
    double* row = &t[i * size];
    row[i] = 1;
    for (std::size_t k = i + 1; k < size; ++k) {
      const double factor = r(i, k);
      for (std::size_t j = k; j < size; ++j)
        row[j] -= factor * t[k * size + j];
    }
    const double scale = 1 / r(i, i);
    for (std::size_t j = i; j < size; ++j)
      row[j] *= scale;
  }
  return t;
}

}  // namespace pumpwright

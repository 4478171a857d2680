// The triangular factor of a tall matrix, taken row by row: what least_squares.h and the sweep share.
//
// Rows collect in a block; a full block is reduced by Householder reflections together with the triangle so
// far. Q is not kept: with the observations as the last column, the last column of R holds Qᵀy and its last
// diagonal element the root of the residual sum of squares.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace pumpwright {

class QrAccumulator {
 public:
  // `rows_expected` only sizes the block.
  QrAccumulator(std::size_t columns, std::size_t rows_expected);

  // row.size() == columns.
  void add(std::span<const double> row);
  // Reduces what is left in the block; to be called once, after the last row.
  void finish();

  std::size_t columns() const { return columns_; }
  // R_ij, i <= j; zero in rows beyond those that were added. Signs of R's rows are arbitrary.
  double r(std::size_t i, std::size_t j) const { return block_[j * lead_ + i]; }

  // T = R⁻¹ of the leading p×p part, upper triangle, row by row, p = `size`. Its leading part is the inverse
  // of R's leading part, so one T serves every fit by the first so many columns. The diagonal of R must not
  // hold a zero.
  std::vector<double> inverse(std::size_t size) const;

 private:
  void reduce();

  std::size_t columns_, lead_, filled_ = 0;
  std::vector<double> block_;  // column by column, `lead_` apart
};

}  // namespace pumpwright

#include "engine/metrology/qr_accumulator.h"

#include <algorithm>
#include <cassert>

#include <Eigen/QR>

namespace pumpwright {
namespace {

constexpr std::size_t block_rows = 128;

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
  using Block = Eigen::Ref<Eigen::MatrixXd, 0, Eigen::OuterStride<>>;
  const auto rows = static_cast<Eigen::Index>(filled_);
  const auto columns = static_cast<Eigen::Index>(columns_);
  Eigen::Map<Eigen::MatrixXd, 0, Eigen::OuterStride<>> view(
      block_.data(), rows, columns, Eigen::OuterStride<>(static_cast<Eigen::Index>(lead_)));
  Block block(view);
  const Eigen::HouseholderQR<Block> in_place(block);  // works in the block's own memory
  // Below the diagonal the reflections were left; only R is kept.
  for (std::size_t j = 0; j < columns_; ++j) {
    const auto column = block_.begin() + static_cast<std::ptrdiff_t>(j * lead_);
    std::fill(column + static_cast<std::ptrdiff_t>(std::min(j + 1, filled_)),
              column + static_cast<std::ptrdiff_t>(filled_), 0.0);
  }
  filled_ = std::min(filled_, columns_);
}

void QrAccumulator::finish() {
  if (filled_ > 0) reduce();
}

std::vector<double> QrAccumulator::inverse(std::size_t size) const {
  std::vector<double> t(size * size, 0.0);
  for (std::size_t j = 0; j < size; ++j) {
    t[j * size + j] = 1 / r(j, j);
    for (std::size_t i = j; i-- > 0;) {
      double sum = 0;
      for (std::size_t k = i + 1; k <= j; ++k)
        sum += r(i, k) * t[k * size + j];
      t[i * size + j] = -sum / r(i, i);
    }
  }
  return t;
}

}  // namespace pumpwright

// Harmonics of a placed sweep: one QR factorisation that serves every order from 1 to K. Internal to the
// evaluation of a sweep.
//
// Columns are 1, cos θ, sin θ, cos 2θ, … in this order, so the leading part of R (and of its inverse T) is
// the factor of the fit by the first orders alone.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "engine/metrology/sweep_places.h"

namespace pumpwright::sweep_detail {

constexpr std::size_t columns_of(int order) {
  return 2 * static_cast<std::size_t>(order) + 1;
}
inline constexpr std::size_t columns_max = columns_of(highest_order);

// cos kθ, sin kθ for k = 0 … order from cos θ, sin θ; out[0] = 1. Room for columns_of(order).
void fill_basis(double cos_1, double sin_1, int order, std::span<double> out);

class HarmonicFit {
 public:
  // Throws BadInput when not even order 1 is carried.
  explicit HarmonicFit(const PlacedSweep& sweep);

  int order() const { return order_; }  // K
  std::size_t count() const { return count_; }
  // Degrees of freedom and residual sum of squares [m²] of the fit by orders up to `order`; order <= K.
  std::size_t dof(int order) const { return count_ - columns_of(order); }
  double rss_m2(int order) const;
  // Coefficients [m] of that fit.
  std::vector<double> coefficients_m(int order) const;
  // (XᵀX)⁻¹ of that fit at (i, j).
  double cofactor(int order, std::size_t i, std::size_t j) const;
  // xᵀ (XᵀX)⁻¹ x of that fit for one row of the basis.
  double leverage(int order, std::span<const double> basis) const;

 private:
  double t(std::size_t i, std::size_t j) const { return t_[i * stride_ + j]; }
  int carried(std::size_t places) const;

  int order_ = 0;
  std::size_t count_ = 0, stride_ = 0;
  std::vector<double> t_;    // R⁻¹ of all columns tried
  std::vector<double> z_m_;  // Qᵀ deviation, one per column tried
  double rss_tried_m2_ = 0;  // left over by all columns tried
};

}  // namespace pumpwright::sweep_detail

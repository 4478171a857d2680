// How well the length of a measured vector in a plane is known.
//
// An unbalance, a shaft's offset: two coordinates with a covariance, of which the length is judged. First
// order along the vector (JCGM 100:2008, 5.1.2) while the vector is told from nothing; where zero lies inside
// its 95 % region the length is overstated by its own noise, and the larger half-axis of the region is the
// honest doubt.
#pragma once

#include <array>

namespace pumpwright {

// Standard uncertainty of sqrt(x² + y²), in the unit of x and y. `covariance` of (x, y) row by row, `dof`
// degrees of freedom behind it (> 0, infinity allowed). The region is dᵀ C⁻¹ d <= 2 F(0.95; 2, dof) about (x,
// y).
double amount_u(double x, double y, const std::array<double, 4>& covariance, double dof);

}  // namespace pumpwright

#include "engine/metrology/vector_amount.h"

#include <algorithm>
#include <cmath>

#include "engine/metrology/quantiles.h"

namespace pumpwright {
namespace {

// The larger eigenvalue of a symmetric 2×2 matrix.
double larger_variance(const std::array<double, 4>& c) {
  return (c[0] + c[3]) / 2 + std::hypot((c[0] - c[3]) / 2, c[1]);
}

bool zero_is_inside(double x, double y, const std::array<double, 4>& c, double dof) {
  const double determinant = c[0] * c[3] - c[1] * c[2];
  if (!(determinant > 0)) return false;
  const double distance = (c[3] * x * x - (c[1] + c[2]) * x * y + c[0] * y * y) / determinant;
  return distance <= 2 * f_quantile(0.95, 2, dof);
}

}  // namespace

double amount_u(double x, double y, const std::array<double, 4>& covariance, double dof) {
  const auto& c = covariance;
  const double amount = std::hypot(x, y);
  if (amount == 0 || zero_is_inside(x, y, c, dof)) return std::sqrt(std::max(0.0, larger_variance(c)));
  const double along = (x * x * c[0] + x * y * (c[1] + c[2]) + y * y * c[3]) / (amount * amount);
  return std::sqrt(std::max(0.0, along));
}

}  // namespace pumpwright

// Sums of powers as the fluid correlations are printed: one or two variables, coefficients in a table.
#pragma once

#include <array>
#include <cstddef>

namespace pumpwright::fluid {

// Σ c_k x^k
template <std::size_t count>
constexpr double power_series(const std::array<double, count>& c, double x) {
  double sum = 0;
  for (std::size_t k = count; k > 0; --k)
    sum = sum * x + c[k - 1];
  return sum;
}

// Σ c_ij x^i y^j
template <std::size_t rows, std::size_t columns>
constexpr double power_series(const std::array<std::array<double, columns>, rows>& c, double x, double y) {
  double sum = 0;
  for (std::size_t i = rows; i > 0; --i)
    sum = sum * x + power_series(c[i - 1], y);
  return sum;
}

}  // namespace pumpwright::fluid

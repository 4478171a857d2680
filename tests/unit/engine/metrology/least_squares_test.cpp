// The fit behind the sweep, on its own.
#include "engine/metrology/least_squares.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

std::vector<double> line_design(int count, double step) {
  std::vector<double> design;
  for (int i = 0; i < count; ++i) {
    design.push_back(1);
    design.push_back(step * i);
  }
  return design;
}

TEST(LeastSquares, FitsALineWithItsTextbookErrors) {
  // y = 1, 2, 4 at x = 0, 1, 2: slope 3/2, intercept 5/6, residuals 1/6, -1/3, 1/6.
  const LeastSquares fit = fit_least_squares(line_design(3, 1), 2, std::vector<double>{1, 2, 4});
  EXPECT_NEAR(fit.coefficients[0], 5.0 / 6, 1e-14);
  EXPECT_NEAR(fit.coefficients[1], 1.5, 1e-14);
  EXPECT_NEAR(fit.residual_sum_of_squares, 1.0 / 6, 1e-14);
  EXPECT_EQ(fit.dof(), 1U);
  EXPECT_NEAR(*fit.residual_sd(), std::sqrt(1.0 / 6), 1e-14);
  EXPECT_NEAR(*fit.standard_error(1), std::sqrt(1.0 / 6 / 2), 1e-14);
  EXPECT_NEAR(fit.cofactor[0], 5.0 / 6, 1e-14);
  EXPECT_NEAR(fit.cofactor[1], -0.5, 1e-14);
  EXPECT_NEAR(fit.cofactor[2], -0.5, 1e-14);
  EXPECT_NEAR(fit.cofactor[3], 0.5, 1e-14);
}

TEST(LeastSquares, AnExactFitLeavesNoDegreeOfFreedomToTellTheScatter) {
  const LeastSquares fit = fit_least_squares(line_design(2, 1), 2, std::vector<double>{3, 5});
  EXPECT_NEAR(fit.coefficients[1], 2, 1e-14);
  EXPECT_FALSE(fit.residual_sd());
  EXPECT_FALSE(fit.standard_error(0));
}

TEST(LeastSquares, ManyBlocksGiveTheSameAsOne) {
  // 1000 rows pass through several blocks; the closed sums of a line tell what must come out.
  const int n = 1000;
  std::vector<double> y;
  double sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (int i = 0; i < n; ++i) {
    const double x = 0.01 * i;
    y.push_back(2 - 0.3 * x + std::sin(17.0 * i));
    sx += x;
    sy += y.back();
    sxx += x * x;
    sxy += x * y.back();
  }
  const double slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
  const LeastSquares fit = fit_least_squares(line_design(n, 0.01), 2, y);
  EXPECT_NEAR(fit.coefficients[1], slope, 1e-12);
  EXPECT_NEAR(fit.coefficients[0], (sy - slope * sx) / n, 1e-12);
  double rss = 0;
  for (int i = 0; i < n; ++i) {
    const double e = y[static_cast<std::size_t>(i)] - fit.coefficients[0] - fit.coefficients[1] * 0.01 * i;
    rss += e * e;
  }
  EXPECT_NEAR(fit.residual_sum_of_squares, rss, 1e-10);
}

TEST(LeastSquares, RefusesColumnsThatSayTheSame) {
  const std::vector<double> design{1, 2, 1, 2, 1, 2};
  EXPECT_THROW(fit_least_squares(design, 2, std::vector<double>{1, 2, 3}), BadInput);
  const std::vector<double> zero{1, 0, 1, 0, 1, 0};
  EXPECT_THROW(fit_least_squares(zero, 2, std::vector<double>{1, 2, 3}), BadInput);
}

TEST(LeastSquares, RefusesTooFewObservationsAndNumbersThatAreNone) {
  EXPECT_THROW(fit_least_squares(line_design(1, 1), 2, std::vector<double>{1}), BadInput);
  EXPECT_THROW(fit_least_squares(line_design(3, 1), 2, std::vector<double>{1, std::nan(""), 2}), BadInput);
  EXPECT_THROW(fit_least_squares(line_design(3, HUGE_VAL), 2, std::vector<double>{1, 1, 2}), BadInput);
}

}  // namespace
}  // namespace pumpwright

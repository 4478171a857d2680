// The least-squares fit against NIST's certified regressions, and means and scatters against its univariate
// sets.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/metrology/least_squares.h"
#include "engine/metrology/size.h"
#include "tests/reference/engine/metrology/nist_data.h"
#include "tests/support/outside_check.h"

namespace pumpwright {
namespace {

using namespace testing;

const std::string linear = "NIST StRD, linear regression, ";
const std::string univariate = "NIST StRD, univariate, ";

void expect_certified(const LeastSquares& fit, const std::string& name,
                      const std::vector<Certified>& certified, int digits, int sd_digits) {
  for (std::size_t j = 0; j < certified.size(); ++j) {
    const std::string coefficient = name + ": B" + std::to_string(j);
    expect_outside({.what = coefficient,
                    .source = linear + name + ", read in a public copy",
                    .obtained = Obtained::read,
                    .published = certified[j].estimate,
                    .computed = fit.coefficients[j],
                    .unit = "",
                    .digits_required = digits});
    expect_outside({.what = coefficient + ", standard deviation",
                    .source = linear + name + ", read in a public copy",
                    .obtained = Obtained::read,
                    .published = certified[j].sd,
                    .computed = *fit.standard_error(j),
                    .unit = "",
                    .digits_required = sd_digits});
  }
}

void expect_set(const RegressionSet& set, int digits, int sd_digits) {
  std::vector<double> design;
  for (const double x : set.x) {
    for (int power = set.lowest_power; power <= set.highest_power; ++power)
      design.push_back(std::pow(x, power));
  }
  const auto columns = static_cast<std::size_t>(set.highest_power - set.lowest_power + 1);
  const LeastSquares fit = fit_least_squares(design, columns, set.y);
  expect_certified(fit, set.name, set.certified, digits, sd_digits);
  expect_outside({.what = set.name + ": residual standard deviation",
                  .source = linear + set.name + ", read in a public copy",
                  .obtained = Obtained::read,
                  .published = set.residual_sd,
                  .computed = *fit.residual_sd(),
                  .unit = "",
                  .digits_required = sd_digits});
}

TEST(NistRegression, Norris) {
  expect_set(norris, 12, 13);
}
TEST(NistRegression, Pontius) {
  expect_set(pontius, 11, 12);
}
TEST(NistRegression, NoIntercept) {
  expect_set(no_intercept_1, 14, 14);
  expect_set(no_intercept_2, 14, 14);
}
TEST(NistRegression, Wampler1) {
  expect_set(wampler_1, 8, 7);
}
TEST(NistRegression, Wampler2) {
  expect_set(wampler_2, 11, 11);
}
TEST(NistRegression, Wampler3) {
  expect_set(wampler_3, 8, 11);
}
TEST(NistRegression, Wampler4) {
  expect_set(wampler_4, 8, 11);
}
TEST(NistRegression, Wampler5) {
  expect_set(wampler_5, 6, 11);
}

TEST(NistRegression, Longley) {
  std::vector<double> design, y;
  for (const auto& row : longley) {
    y.push_back(row[0]);
    design.push_back(1);
    design.insert(design.end(), row.begin() + 1, row.end());
  }
  const LeastSquares fit = fit_least_squares(design, 7, y);
  expect_certified(fit, "Longley", longley_certified, 10, 10);
  expect_outside({.what = "Longley: residual standard deviation",
                  .source = linear + "Longley, read in a public copy",
                  .obtained = Obtained::read,
                  .published = "304.854073561965",
                  .computed = *fit.residual_sd(),
                  .unit = "",
                  .digits_required = 11});
}

// A dial riding on a large offset: mean and scatter by the fit of a constant.
void expect_univariate(const std::string& name, const std::vector<double>& values, const std::string& mean,
                       const std::string& sd, int digits_mean, int digits_sd) {
  const std::vector<double> ones(values.size(), 1.0);
  const LeastSquares fit = fit_least_squares(ones, 1, values);
  expect_outside({.what = name + ": mean",
                  .source = univariate + name + ", read in a public copy",
                  .obtained = Obtained::read,
                  .published = mean,
                  .computed = fit.coefficients[0],
                  .unit = "",
                  .digits_required = digits_mean});
  expect_outside({.what = name + ": standard deviation",
                  .source = univariate + name + ", read in a public copy",
                  .obtained = Obtained::read,
                  .published = sd,
                  .computed = *fit.residual_sd(),
                  .unit = "",
                  .digits_required = digits_sd});
}

std::vector<double> swinging(double first, double low, double high) {
  std::vector<double> values{first};
  for (int i = 0; i < 500; ++i) {
    values.push_back(low);
    values.push_back(high);
  }
  return values;
}

TEST(NistUnivariate, Mavro) {
  expect_univariate("Mavro", mavro, "2.00185600000000", "0.000429123454003053", 14, 11);
}

TEST(NistUnivariate, NumAcc1) {
  expect_univariate("NumAcc1", {10000001, 10000003, 10000002}, "10000002", "1", 8, 1);
}

// The printed 0.1 is one digit; the bound below it asks for what the numbers can hold at each offset.
TEST(NistUnivariate, NumAcc2To4) {
  expect_univariate("NumAcc2", swinging(1.2, 1.1, 1.3), "1.2", "0.1", 2, 1);
  expect_univariate("NumAcc3", swinging(1000000.2, 1000000.1, 1000000.3), "1000000.2", "0.1", 8, 1);
  expect_univariate("NumAcc4", swinging(10000000.2, 10000000.1, 10000000.3), "10000000.2", "0.1", 9, 1);
  for (const double offset : {1.0, 1e6, 1e7}) {
    const std::vector<double> values = swinging(offset + 0.2, offset + 0.1, offset + 0.3);
    const LeastSquares fit = fit_least_squares(std::vector<double>(values.size(), 1.0), 1, values);
    EXPECT_NEAR(*fit.residual_sd(), 0.1, 1e-14 + 2e-16 * offset) << offset;
  }
}

TEST(NistUnivariate, MavroAsDiametersOfOneSection) {
  std::vector<DiameterReading> readings;
  for (const double value : mavro)
    readings.push_back({metres(0), degrees(0), metres(value)});
  expect_outside({.what = "Mavro: mean size",
                  .source = univariate + "Mavro, read in a public copy",
                  .obtained = Obtained::read,
                  .published = "2.00185600000000",
                  .computed = summarize_size(readings).mean.value(),
                  .unit = "",
                  .digits_required = 15});
}

}  // namespace
}  // namespace pumpwright

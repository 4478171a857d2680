// Harmonic fits and quantiles beside SciPy, which runs as a process of its own on the same readings.
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/metrology/quantiles.h"
#include "engine/metrology/sweep.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright {
namespace {

using namespace testing;

constexpr double exact_m = 1e-12;

std::vector<SweepReading> readings_of(const std::string& key) {
  const std::vector<std::string> words = live_words("readings " + key);
  std::vector<SweepReading> readings;
  for (std::size_t i = 0; i + 1 < words.size(); i += 2)
    readings.push_back({radians(std::stod(words[i])), metres(std::stod(words[i + 1]))});
  return readings;
}

void expect_live(const std::string& what, const std::string& published, double computed,
                 const std::string& unit, int digits) {
  static const std::string versions = live_versions();
  expect_outside({.what = what,
                  .source = versions,
                  .obtained = Obtained::live,
                  .published = published,
                  .computed = computed,
                  .unit = unit,
                  .digits_required = digits});
}

class SciPyFit : public ::testing::TestWithParam<int> {};

TEST_P(SciPyFit, HarmonicsAndCovarianceAgree) {
  const int count = GetParam();
  const std::string key = std::to_string(1000 + count) + " " + std::to_string(count);
  const auto readings = readings_of(key);
  ASSERT_EQ(readings.size(), static_cast<std::size_t>(count));
  const SweepResult r = evaluate_sweep(readings, {});
  const auto words = live_words("harmonics " + key + " " + std::to_string(r.carried_order));
  const auto columns = static_cast<std::size_t>(2 * r.carried_order + 1);
  ASSERT_EQ(words.size(), columns + 4);

  const std::string name = std::to_string(count) + " uneven places: ";
  EXPECT_NEAR(r.mean.value(), std::stod(words[0]), exact_m);
  EXPECT_NEAR(r.vector[0].value(), std::stod(words[1]), exact_m);
  EXPECT_NEAR(r.vector[1].value(), std::stod(words[2]), exact_m);
  expect_live(name + "cosine of the first harmonic", words[1], r.vector[0].value(), "m", 10);
  expect_live(name + "sine of the first harmonic", words[2], r.vector[1].value(), "m", 10);
  for (const Harmonic& h : r.harmonics) {
    const auto at = static_cast<std::size_t>(2 * h.order - 1);
    const double turned = h.order * h.phase.value();
    EXPECT_NEAR(h.amplitude.value() * std::cos(turned), std::stod(words[at]), exact_m);
    EXPECT_NEAR(h.amplitude.value() * std::sin(turned), std::stod(words[at + 1]), exact_m);
  }
  // Covariance over σ² is the cofactor.
  ASSERT_TRUE(r.vector_uncertainty && r.reading_u);
  const double variance = r.reading_u->value() * r.reading_u->value();
  const auto& c = r.vector_uncertainty->covariance;
  expect_live(name + "cofactor cos-cos", words[columns + 1], c[0] / variance, "", 10);
  expect_live(name + "cofactor sin-sin", words[columns + 3], c[3] / variance, "", 10);
  EXPECT_NEAR(c[1] / variance, std::stod(words[columns + 2]), 1e-12);
}

INSTANTIATE_TEST_SUITE_P(Counts, SciPyFit, ::testing::Values(4, 8, 12, 13, 37, 360, 3600));

TEST(SciPyQuantiles, NormalStudentChiSquareAndF) {
  struct Row {
    std::string request;
    double computed;
  };
  std::vector<Row> rows;
  for (const char* p : {"0.001", "0.5000001", "0.9", "0.95", "0.975", "0.999999"})
    rows.push_back({std::string("normal:") + p, normal_quantile(std::stod(p))});
  for (const char* p : {"0.9", "0.95", "0.975", "0.995", "0.9979166666666667"}) {
    for (const char* dof : {"1", "2", "4", "6", "7.5", "16", "120"})
      rows.push_back(
          {std::string("student:") + p + ":" + dof, student_quantile(std::stod(p), std::stod(dof))});
  }
  for (const char* t : {"-3", "0.25", "2.2"})
    rows.push_back({std::string("student_cdf:") + t + ":9", student_cdf(std::stod(t), 9)});
  for (const char* dof : {"1", "2", "7", "40"})
    rows.push_back({std::string("chi_square:0.99:") + dof, chi_square_quantile(0.99, std::stod(dof))});
  for (const char* dof : {"1", "3", "5", "7", "31", "3579"})
    rows.push_back({std::string("f:0.95:2:") + dof, f_quantile(0.95, 2, std::stod(dof))});
  rows.push_back({"f:0.95:3:8", f_quantile(0.95, 3, 8)});

  std::string requests = "quantiles";
  for (const Row& row : rows)
    requests += " " + row.request;
  const auto words = live_words(requests);
  ASSERT_EQ(words.size(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i)
    expect_live(rows[i].request, words[i], rows[i].computed, "", 12);
}

TEST(SciPyQuantiles, InfiniteDegreesOfFreedomAreTheNormalAndChiSquareLimits) {
  const double infinite = std::numeric_limits<double>::infinity();
  EXPECT_EQ(student_quantile(0.95, infinite), normal_quantile(0.95));
  EXPECT_EQ(student_cdf(1.5, infinite), normal_cdf(1.5));
  EXPECT_NEAR(2 * f_quantile(0.95, 2, infinite), chi_square_quantile(0.95, 2), 1e-14);
  EXPECT_NEAR(3 * f_quantile(0.95, 3, infinite), chi_square_quantile(0.95, 3), 1e-13);
}

}  // namespace
}  // namespace pumpwright

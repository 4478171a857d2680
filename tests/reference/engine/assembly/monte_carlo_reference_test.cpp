#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/assembly/monte_carlo.h"
#include "engine/assembly/random_stream.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"
#include "tests/support/thread_executor.h"

namespace pumpwright::testing {
namespace {

constexpr MonteCarloSettings four_million{4'000'000, 101};

SampleSummary sampled(const std::vector<Distribution>& inputs, const BlockModel& model,
                      const std::vector<double>& probabilities) {
  ThreadExecutor executor(2);
  return propagate(inputs, model, {probabilities, {}, {}}, four_million, executor);
}

void sum_inputs(std::span<const std::span<const double>> inputs, std::span<double> out) {
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i] = 0;
    for (const auto& input : inputs)
      out[i] += input[i];
  }
}

Rectangular rectangle_with_sd(double sd) {
  return {-sd * std::sqrt(3.0), sd * std::sqrt(3.0)};
}

struct AdditiveCase {
  const char* name;
  std::vector<Distribution> inputs;
  const char* printed_u;
  const char* printed_end;
  const char* exact_end;
};

// Digits: 4e6 samples leave a standard error of about 4 units in the fourth digit of an end of the interval.
TEST(MonteCarloReference, AdditiveModelOfJcgm101) {
  const Rectangular unit = rectangle_with_sd(1);
  const std::vector<AdditiveCase> cases{
      {"four normal", {Normal{0, 1}, Normal{0, 1}, Normal{0, 1}, Normal{0, 1}}, "2.0", "3.92", "3.919928"},
      {"four rectangular", {unit, unit, unit, unit}, "2.0", "3.88", "3.8794067"},
      {"three rectangular and one ten times wider",
       {unit, unit, unit, rectangle_with_sd(10)},
       "10.1",
       "17.0",
       "17.0158141"}};
  const std::string source = "JCGM 101:2008, 9.2";
  for (const AdditiveCase& c : cases) {
    const SampleSummary s = sampled(c.inputs, sum_inputs, {0.025, 0.975});
    const std::string name = std::string("additive model, ") + c.name + ": ";
    expect_outside({name + "u(y)", source, Obtained::remembered, c.printed_u, s.sd, "", 2});
    expect_outside(
        {name + "97.5 % point", source, Obtained::remembered, c.printed_end, s.quantiles[1], "", 3});
    expect_outside({name + "97.5 % point, exact", "exact convolution", Obtained::closed_form, c.exact_end,
                    s.quantiles[1], "", 3});
    expect_outside({name + "2.5 % point, exact", "exact convolution", Obtained::closed_form,
                    std::string("-") + c.exact_end, s.quantiles[0], "", 3});
    EXPECT_NEAR(s.mean, 0, 4 * s.sd / std::sqrt(4e6));
  }
}

// Inputs: m_R, dm, rho_a, rho_W, rho_R; output in mg.
void mass_model(std::span<const std::span<const double>> x, std::span<double> out) {
  for (std::size_t i = 0; i < out.size(); ++i)
    out[i] = (x[0][i] + x[1][i]) * (1 + (x[2][i] - 1.2) * (1 / x[3][i] - 1 / x[4][i])) - 100'000;
}

TEST(MonteCarloReference, MassCalibrationOfJcgm101) {
  const std::vector<Distribution> inputs{Normal{100'000, 0.050}, Normal{1.234, 0.020},
                                         Rectangular{1.10, 1.30}, Rectangular{7000, 9000},
                                         Rectangular{7950, 8050}};
  const SampleSummary s = sampled(inputs, mass_model, {0.025, 0.975});
  const std::string source = "JCGM 101:2008, 9.3";
  expect_outside({"mass calibration: estimate", source, Obtained::remembered, "1.2340", s.mean, "mg", 4});
  expect_outside({"mass calibration: u", source, Obtained::remembered, "0.0754", s.sd, "mg", 2});
  // The document prints the shortest interval of its own 1e6 or so trials; the symmetric one lies within
  // 0.001 mg of it.
  expect_outside(
      {"mass calibration: lower end", source, Obtained::remembered, "1.0834", s.quantiles[0], "mg", 2});
  expect_outside(
      {"mass calibration: upper end", source, Obtained::remembered, "1.3825", s.quantiles[1], "mg", 2});
  // What a linear propagation would have said must not come out.
  EXPECT_GT(s.sd, 0.0539 * 1.3);
  EXPECT_NEAR(s.sd, 0.0754, 0.0002);
}

// Inputs: L_S, D, d1, d2, alpha_S, theta_0, Delta, dalpha, dtheta; output: deviation from 50 mm in nm.
void gauge_block_model(std::span<const std::span<const double>> x, std::span<double> out) {
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double theta = x[5][i] + x[6][i];
    const double length = x[0][i] * (1 + x[4][i] * (theta - x[8][i])) + x[1][i] + x[2][i] + x[3][i];
    out[i] = length / (1 + (x[4][i] + x[7][i]) * theta) - 50e6;
  }
}

TEST(MonteCarloReference, GaugeBlockOfJcgm101) {
  const std::vector<Distribution> inputs{StudentT{50'000'623, 25, 18},
                                         StudentT{215, 6, 24},
                                         StudentT{0, 4, 5},
                                         StudentT{0, 7, 8},
                                         Rectangular{9.5e-6, 13.5e-6},
                                         Normal{-0.1, 0.2},
                                         Arcsine{-0.5, 0.5},
                                         CurvilinearTrapezoid{-1.0e-6, 1.0e-6, 0.1e-6},
                                         CurvilinearTrapezoid{-0.050, 0.050, 0.025}};
  const SampleSummary s = sampled(inputs, gauge_block_model, {0.005, 0.995});
  const std::string source = "JCGM 101:2008, 9.5";
  expect_outside({"gauge block: estimate", source, Obtained::remembered, "838", s.mean, "nm", 3});
  expect_outside({"gauge block: u", source, Obtained::remembered, "36", s.sd, "nm", 2});
  expect_outside({"gauge block: 0.5 % point", source, Obtained::remembered, "745", s.quantiles[0], "nm", 2});
  expect_outside({"gauge block: 99.5 % point", source, Obtained::remembered, "932", s.quantiles[1], "nm", 2});
}

// Sum of n unit rectangles: P(sum <= x) = sum over k of (-1)^k C(n,k) (x-k)_+^n / n! (Irwin 1927, Hall 1927).
double irwin_hall(int n, double x) {
  double sum = 0;
  double term_sign = 1;
  double choose = 1;
  for (int k = 0; k <= n && k < x; ++k) {
    sum += term_sign * choose * std::pow(x - k, n);
    choose = choose * (n - k) / (k + 1);
    term_sign = -term_sign;
  }
  return sum / std::tgamma(n + 1.0);
}

TEST(MonteCarloReference, SumsOfRectanglesFollowIrwinAndHall) {
  for (const int n : {1, 2, 3, 5, 8}) {
    const std::vector<Distribution> inputs(static_cast<std::size_t>(n), Rectangular{0, 1});
    for (const double x : {0.25 * n, 0.4 * n, 0.5 * n}) {
      ThreadExecutor executor(2);
      const SampleSummary s = propagate(inputs, sum_inputs, {{}, std::nullopt, x}, {1'000'000, 4}, executor);
      const double exact = irwin_hall(n, x);
      EXPECT_NEAR(s.inside->value, exact, 4.5 * s.inside->standard_error) << n << " at " << x;
      if (x == 0.5 * n)
        expect_outside({fmt::format("sum of {} rectangles: P(below the middle), 1e6 samples", n),
                        "Irwin (1927), Hall (1927)", Obtained::closed_form, fmt::format("{:.9f}", exact),
                        s.inside->value, "", 2});
    }
  }
}

// Same samples, other program: moments and order statistics must agree to rounding.
TEST(MonteCarloReference, OrderStatisticsAreThoseOfNumPyForTheSameSamples) {
  const std::vector<Distribution> inputs{Normal{3, 0.2}, StudentT{0, 0.1, 3}, Arcsine{-1, 1}};
  const std::vector<double> probabilities{0.00135, 0.025, 0.5, 0.975, 0.99865};
  constexpr MonteCarloSettings settings{300'000, 77};
  SerialExecutor serial;
  std::vector<double> samples;
  std::size_t calls = 0;
  const BlockModel keep = [&](std::span<const std::span<const double>> in, std::span<double> out) {
    sum_inputs(in, out);
    if (++calls > 16)
      samples.insert(samples.end(), out.begin(), out.end());  // the first 16 blocks are the pilot's
  };
  const SampleSummary s = propagate(inputs, keep, {probabilities, {}, {}}, settings, serial);
  ASSERT_EQ(samples.size(), settings.samples);
  const SampleFile file(samples);
  const auto live = live_words("order_statistics " + file.path() + " 0.00135 0.025 0.5 0.975 0.99865");
  ASSERT_EQ(live.size(), 9U);
  const std::string source = "numpy.mean, std(ddof=1), quantile(method='inverted_cdf'), " + live_versions();
  expect_outside({"300 000 samples: mean", source, Obtained::live, live[0], s.mean, "", 12});
  expect_outside({"300 000 samples: sd", source, Obtained::live, live[1], s.sd, "", 12});
  EXPECT_EQ(s.minimum, std::stod(live[2]));
  EXPECT_EQ(s.maximum, std::stod(live[3]));
  for (std::size_t i = 0; i < probabilities.size(); ++i) {
    EXPECT_EQ(s.quantiles[i], std::stod(live[4 + i]));
    expect_outside({fmt::format("300 000 samples: {} quantile", probabilities[i]), source, Obtained::live,
                    live[4 + i], s.quantiles[i], "", 15});
  }
}

}  // namespace
}  // namespace pumpwright::testing

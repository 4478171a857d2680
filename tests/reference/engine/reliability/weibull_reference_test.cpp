#include <cmath>

#include <gtest/gtest.h>

#include "engine/reliability/return_rate.h"
#include "engine/reliability/weibull_limits.h"
#include "engine/reliability/weibull_threshold.h"
#include "live_lives.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

// Ten failures, ten units unfailed at 500 h.
std::vector<Life> handbook_lives() {
  std::vector<Life> lives;
  for (const double hours : {54., 187., 216., 240., 244., 335., 361., 373., 375., 386.})
    lives.push_back({seconds(hours), Ending::returned});
  lives.insert(lives.end(), 10, {seconds(500), Ending::running});
  return lives;
}

TEST(WeibullReference, AgreesWithTheHandbook) {
  const std::string source = "NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3";
  const WeibullData data(handbook_lives());
  const auto fit = fit_weibull(data);
  ASSERT_TRUE(fit);
  const auto check = [&](const std::string& what, const std::string& published, double ours, int digits) {
    expect_outside(
        {"Weibull, 10 of 20 failed: " + what, source, Obtained::read, published, ours, "", digits});
  };
  check("scale", "606.5280", fit->scale.value(), 6);
  check("shape", "1.7208", fit->shape, 5);
  const double first = std::tgamma(1 + 1 / fit->shape);
  check("mean life", "540.737", fit->scale.value() * first, 6);
  check("standard deviation", "323.806",
        fit->scale.value() * std::sqrt(std::tgamma(1 + 2 / fit->shape) - first * first), 6);
  check("log-likelihood", "-75.135", fit->log_likelihood, 5);
  check("AIC", "154.27", 4 - 2 * fit->log_likelihood, 5);
}

TEST(WeibullReference, MaximumAndCovarianceAgreeWithR) {
  for (const std::string data_name : {"lung", "ovarian", "veteran", "colon"}) {
    const LiveRows live("weibull " + data_name);
    const WeibullData data(live.lives());
    const auto fit = fit_weibull(data);
    ASSERT_TRUE(fit);
    live.expect(data_name + ": shape", "shape", 0, fit->shape, 8);
    live.expect(data_name + ": scale", "scale", 0, fit->scale.value(), 8);
    live.expect(data_name + ": log-likelihood", "loglik", 0, fit->log_likelihood, 10);
    live.expect(data_name + ": variance of ln scale", "variance", 0, fit->variance_log_scale, 7);
    live.expect(data_name + ": variance of ln shape", "variance", 1, fit->variance_log_shape, 7);
    live.expect(data_name + ": covariance", "variance", 2, fit->covariance, 6);
    live.expect(data_name + ": B10", "b10", 0, life_at(data, *fit, 0.1).value(), 8);
  }
}

TEST(WeibullReference, LikelihoodIntervalsAgreeWithASearchInR) {
  for (const std::string data_name : {"lung", "ovarian", "veteran"}) {
    const LiveRows live("weibull " + data_name);
    const WeibullData data(live.lives());
    const auto fit = fit_weibull(data);
    ASSERT_TRUE(fit);
    const auto shape = shape_limits(data, *fit);
    live.expect(data_name + ": shape, low", "shape_limits", 0, shape.low, 6);
    live.expect(data_name + ": shape, high", "shape_limits", 1, shape.high, 6);
    const auto scale = scale_limits(data, *fit);
    live.expect(data_name + ": scale, low", "scale_limits", 0, scale.low.value(), 6);
    live.expect(data_name + ": scale, high", "scale_limits", 1, scale.high.value(), 6);
    const auto b10 = life_limits(data, *fit, 0.1);
    live.expect(data_name + ": B10, low", "b10_limits", 0, b10.low.value(), 6);
    live.expect(data_name + ": B10, high", "b10_limits", 1, b10.high.value(), 6);
  }
}

TEST(WeibullReference, ThresholdAgreesWithASearchInR) {
  const LiveRows live("threshold");
  const auto found = fit_threshold(live.lives());
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->is_proven);
  live.expect("threshold", "threshold", 0, found->threshold.value(), 6);
  live.expect("threshold, low", "low", 0, found->low.value(), 6);
  live.expect("threshold: shape", "shape", 0, found->fit.shape, 5);
  live.expect("threshold: scale", "scale", 0, found->fit.scale.value(), 6);
  live.expect("threshold: log-likelihood", "loglik", 0, found->fit.log_likelihood, 10);
}

TEST(WeibullReference, OneReturnAndTheRestCutShortTogetherHasAClosedForm) {
  // One return at 1, three pumps stopped at e: the equation of the shape then has the root 1/β solving
  // 3·e^β/(1 + 3·e^β) = 1/β.
  const std::vector<Life> lives{{seconds(1), Ending::returned},
                                {seconds(std::exp(1.0)), Ending::running},
                                {seconds(std::exp(1.0)), Ending::running},
                                {seconds(std::exp(1.0)), Ending::running}};
  const auto fit = fit_weibull(WeibullData(lives));
  ASSERT_TRUE(fit);
  const double power = 3 * std::exp(fit->shape);
  expect_outside({"one return of four: left side of the shape's equation times β", "the likelihood equation",
                  Obtained::closed_form, "1.00000000000", fit->shape * power / (1 + power), "", 11});
}

TEST(WeibullReference, NoReturnLeavesTheExactLowerBound) {
  // 1 - exp(-T/bound) = 0.9 at a two-sided confidence of 80 %.
  const std::vector<Life> lives{{seconds(600), Ending::running}, {seconds(400), Ending::running}};
  const auto rate = return_rate(lives, 0.8);
  expect_outside({"no return in 1000 h, 90 % one-sided", "T/ln 10", Obtained::closed_form, "434.294481903252",
                  rate.low.value(), "h", 13});
  EXPECT_FALSE(rate.mean);
  EXPECT_FALSE(rate.high);
}

}  // namespace
}  // namespace pumpwright::testing

#include <algorithm>
#include <cmath>

#include "engine/reliability/cox.h"
#include "engine/reliability/return_rate.h"
#include "engine/reliability/trend.h"
#include "engine/reliability/weibull_limits.h"
#include "random_lives.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

// Log-likelihood written out from the distribution, without the fit's sums.
double weibull_likelihood(const std::vector<Life>& lives, double shape, double scale_s) {
  double sum = 0;
  for (const Life& life : lives) {
    const double t = life.time.value() / scale_s;
    sum -= std::pow(t, shape);
    if (life.ending == Ending::returned) sum += std::log(shape / scale_s) + (shape - 1) * std::log(t);
  }
  return sum;
}

TEST(FitProperty, NoOtherWeibullIsMoreLikely) {
  hold(
      "maximum",
      [] {
        const auto lives = any_lives();
        const auto fit = fit_weibull(WeibullData(lives));
        RC_PRE(fit.has_value() && fit->shape < 50);
        const double scale_s = fit->scale.value();
        const double best = weibull_likelihood(lives, fit->shape, scale_s);
        RC_ASSERT(std::fabs(best - fit->log_likelihood) < 1e-8 * (1 + std::fabs(best)));
        for (const double off : {0.999, 1.001, 0.8, 1.25}) {
          RC_ASSERT(weibull_likelihood(lives, fit->shape * off, scale_s) < best);
          RC_ASSERT(weibull_likelihood(lives, fit->shape, scale_s * off) < best);
          RC_ASSERT(weibull_likelihood(lives, fit->shape * off, scale_s / off) < best);
        }
      },
      1000);
}

TEST(FitProperty, WeibullFollowsTheUnitOfTime) {
  hold(
      "scale",
      [] {
        const auto lives = any_lives();
        const double factor = std::pow(10, between(-6, 6));
        const auto a = fit_weibull(WeibullData(lives));
        const auto b = fit_weibull(WeibullData(scaled(lives, factor)));
        RC_PRE(a.has_value() && b.has_value() && a->shape < 50);
        RC_ASSERT(std::fabs(b->shape / a->shape - 1) < 1e-9);
        RC_ASSERT(std::fabs(b->scale.value() / (a->scale.value() * factor) - 1) < 1e-9);
        RC_ASSERT(std::fabs(b->variance_log_scale / a->variance_log_scale - 1) < 1e-6);
      },
      1000);
}

TEST(FitProperty, AtTheEndsOfALikelihoodIntervalTheLikelihoodHasFallenAsItShould) {
  hold(
      "interval",
      [] {
        const auto lives = any_lives();
        const WeibullData data(lives);
        const auto fit = fit_weibull(data);
        RC_PRE(fit.has_value() && fit->shape < 50);
        const auto limits = shape_limits(data, *fit);
        const auto r = static_cast<double>(data.returned());
        const double best = fit->log_likelihood;
        for (const double shape : {limits.low, limits.high}) {
          if (!(shape > 0) || std::isinf(shape)) continue;
          // The best scale for a given shape.
          double sum = 0;
          for (const Life& life : lives)
            sum += std::pow(life.time / fit->scale, shape);
          const double scale_s = fit->scale.value() * std::pow(sum / r, 1 / shape);
          RC_ASSERT(std::fabs(best - weibull_likelihood(lives, shape, scale_s) - 1.9207294103470609) < 1e-5);
        }
        const auto b10 = life_limits(data, *fit, 0.1);
        RC_ASSERT(b10.low < life_at(data, *fit, 0.1) && life_at(data, *fit, 0.1) < b10.high);
      },
      500);
}

TEST(FitProperty, ProportionalHazardsDependsOnTheOrderOfTimesAlone) {
  hold(
      "order",
      [] {
        const auto lives = any_lives();
        std::vector<double> x;
        for (std::size_t i = 0; i < lives.size(); ++i)
          x.push_back(between(-1, 1));
        RC_PRE(*std::max_element(x.begin(), x.end()) - *std::min_element(x.begin(), x.end()) > 0.01);
        auto bent = lives;  // any growing function of time
        for (Life& life : bent)
          life.time = seconds(std::pow(life.time.value(), 0.25));
        const auto ties = *rc::gen::element(Ties::efron, Ties::breslow);
        const auto a = fit_cox(lives, {x, 1}, ties);
        const auto b = fit_cox(bent, {x, 1}, ties);
        RC_ASSERT(a.has_value() == b.has_value());
        RC_PRE(a.has_value());
        RC_ASSERT(std::fabs(a->coefficients[0].value - b->coefficients[0].value) <
                  1e-7 * (1 + std::fabs(a->coefficients[0].value)));
        RC_ASSERT(a->log_likelihood >= a->log_likelihood_null - 1e-9);
      },
      1000);
}

TEST(FitProperty, TrendFollowsTheUnitOfTimeAndHoldsItsIntervals) {
  hold(
      "trend",
      [] {
        std::vector<History> histories;
        std::vector<History> others;
        const double factor = std::pow(10, between(-6, 6));
        for (int pump = *rc::gen::inRange(1, 6); pump > 0; --pump) {
          History h{.returns = {}, .until = seconds(between(100, 5000))};
          for (int i = *rc::gen::inRange(0, 8); i > 0; --i)
            h.returns.push_back(h.until * between(0.01, 0.999));
          std::sort(h.returns.begin(), h.returns.end());
          History other = h;
          for (Time& age : other.returns)
            age *= factor;
          other.until *= factor;
          histories.push_back(h);
          others.push_back(other);
        }
        const auto a = trend(histories);
        const auto b = trend(others);
        RC_PRE(a.has_value() && b.has_value());
        RC_ASSERT(std::fabs(a->shape / b->shape - 1) < 1e-8);
        RC_ASSERT(std::fabs(a->mean_at_age.value() * factor / b->mean_at_age.value() - 1) < 1e-7);
        RC_ASSERT(a->shape_low < a->shape_high);
        RC_ASSERT(a->mean_at_age_low < a->mean_at_age && a->mean_at_age < a->mean_at_age_high);
        RC_ASSERT(a->p >= 0 && a->p <= 1);
      },
      1000);
}

}  // namespace
}  // namespace pumpwright::testing

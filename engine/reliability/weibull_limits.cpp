#include "engine/reliability/weibull_limits.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/metrology/quantiles.h"
#include "engine/reliability/profile_limit.h"

namespace pumpwright::reliability {
namespace {

constexpr int steps_max = 100;
constexpr double precision = 1e-10;  // of a step; Newton is then there to rounding
constexpr double reach_log = 40;     // beyond e^40 times the estimate an interval has no end

double z_of(double confidence) {
  return normal_quantile((1 + confidence) / 2);
}

// The likelihood is written without Σ ln t of the returned, which no parameter changes.
double own_likelihood(const WeibullData& data, const WeibullFit& fit) {
  return fit.log_likelihood + data.log_sum_returned();
}

// Highest log-likelihood for a given shape, by the logarithm of the shape.
ProfilePoint at_shape(const WeibullData& data, double log_shape) {
  const double b = std::exp(log_shape);
  const auto r = static_cast<double>(data.returned());
  const auto p = data.powers(b);
  return {.log_likelihood = r * (log_shape + b * data.mean_returned_x() - std::log(p.sum / r) - 1),
          .slope = r * (1 + b * (data.mean_returned_x() - p.first / p.sum))};
}

// Highest log-likelihood with the time by which `part` has come back held at exp(log_time)·longest. The shape
// is what remains free; the likelihood is concave in it.
class AtLife {
 public:
  AtLife(const WeibullData& data, double part, double shape)
      : data_(data), log_hazard_(std::log(-std::log1p(-part))), shape_(shape) {}

  ProfilePoint operator()(double log_time) {
    const auto r = static_cast<double>(data_.returned());
    const double returned = data_.mean_returned_x() - log_time;
    for (int step = 0; step < steps_max; ++step) {
      const Moments m = moments(log_time);
      const double slope = r / shape_ + r * returned - m.first;
      const double curvature = -r / (shape_ * shape_) - m.second;
      // Never further than to a third or the threefold in one step.
      const double next = std::clamp(shape_ - slope / curvature, shape_ / 3, shape_ * 3);
      const bool is_there = std::fabs(next - shape_) <= precision * shape_;
      shape_ = next;
      if (is_there) break;
    }
    const Moments m = moments(log_time);
    return {.log_likelihood = r * (std::log(shape_) + shape_ * returned + log_hazard_) - m.sum,
            .slope = shape_ * (m.sum - r)};
  }

 private:
  // Σ w, Σ (x-ψ) w, Σ (x-ψ)² w with w = exp(β(x-ψ) + ln(-ln(1-part))).
  struct Moments {
    double sum = 0, first = 0, second = 0;
  };
  Moments moments(double log_time) const {
    const auto p = data_.powers(shape_);
    const double unit = std::exp(log_hazard_ - shape_ * log_time);
    return {.sum = unit * p.sum,
            .first = unit * (p.first - log_time * p.sum),
            .second = unit * (p.second - 2 * log_time * p.first + log_time * log_time * p.sum)};
  }

  const WeibullData& data_;
  double log_hazard_;
  double shape_;  // where the last search ended
};

TimeLimits log_time_limits(const WeibullData& data, const WeibullFit& fit, double part, double confidence) {
  const double z = z_of(confidence);
  const double log_hazard = std::log(-std::log1p(-part));
  const double c = log_hazard / fit.shape;
  // ln t = ln η + c(β): the error of a function of two estimates.
  const double variance = fit.variance_log_scale + c * c * fit.variance_log_shape - 2 * c * fit.covariance;
  const ProfileMaximum maximum{.at = std::log(fit.scale.value()) - data.log_longest() + c,
                               .log_likelihood = own_likelihood(data, fit)};
  const auto end = [&](double side) {
    return profile_limit(AtLife(data, part, fit.shape), maximum, side * z * std::sqrt(variance), z,
                         reach_log);
  };
  const auto time = [&](double log_time) {
    return data.threshold() + seconds(std::exp(log_time + data.log_longest()));
  };
  const auto low = end(-1);
  const auto high = end(1);
  return {.low = low ? time(*low) : data.threshold(),
          .high = high ? time(*high) : seconds(std::numeric_limits<double>::infinity())};
}

}  // namespace

ShapeLimits shape_limits(const WeibullData& data, const WeibullFit& fit, double confidence) {
  const double z = z_of(confidence);
  const ProfileMaximum maximum{.at = std::log(fit.shape), .log_likelihood = own_likelihood(data, fit)};
  const auto end = [&](double side) {
    return profile_limit([&](double log_shape) { return at_shape(data, log_shape); }, maximum,
                         side * z * std::sqrt(fit.variance_log_shape), z, reach_log);
  };
  const auto low = end(-1);
  const auto high = end(1);
  return {.low = low ? std::exp(*low) : 0,
          .high = high ? std::exp(*high) : std::numeric_limits<double>::infinity()};
}

TimeLimits scale_limits(const WeibullData& data, const WeibullFit& fit, double confidence) {
  return log_time_limits(data, fit, -std::expm1(-1.0), confidence);
}

TimeLimits life_limits(const WeibullData& data, const WeibullFit& fit, double part, double confidence) {
  return log_time_limits(data, fit, part, confidence);
}

}  // namespace pumpwright::reliability

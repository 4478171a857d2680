#include "engine/reliability/weibull.h"

#include <cmath>
#include <limits>

namespace pumpwright::reliability {
namespace {

constexpr int steps_max = 200;
constexpr double precision = 1e-10;  // of a step; Newton is then there to rounding

// The likelihood equation of the shape and its derivative.
struct ShapeEquation {
  double value = 0;
  double slope = 0;
};

ShapeEquation shape_equation(const WeibullData& data, double shape) {
  const auto p = data.powers(shape);
  const double mean = p.first / p.sum;
  return {.value = mean - 1 / shape - data.mean_returned_x(),
          .slope = p.second / p.sum - mean * mean + 1 / (shape * shape)};
}

double solve_shape(const WeibullData& data) {
  double low = 0;
  double high = std::numeric_limits<double>::infinity();
  // With one return and the rest cut short at the same time this is exact.
  double shape = -1 / data.mean_returned_x();
  for (int step = 0; step < steps_max; ++step) {
    const ShapeEquation here = shape_equation(data, shape);
    (here.value < 0 ? low : high) = shape;
    double next = shape - here.value / here.slope;
    if (std::fabs(next - shape) <= precision * shape) return next;
    if (!(next > low && next < high)) next = std::isinf(high) ? 2 * shape : (low + high) / 2;
    shape = next;
  }
  return shape;
}

void add_covariance(const WeibullData& data, const WeibullData::Powers& p, WeibullFit& fit) {
  const auto r = static_cast<double>(data.returned());
  const double b = fit.shape;
  const double m = std::log(fit.scale.value()) - data.log_longest();  // ln(η/longest)
  // z = β(x - m), w = exp(z): at the maximum Σw = r.
  const double unit = std::exp(-b * m);
  const double wz = b * unit * (p.first - m * p.sum);
  const double wzz = b * b * unit * (p.second - 2 * m * p.first + m * m * p.sum);
  const double z = r * b * (data.mean_returned_x() - m);
  const double scale_scale = b * b * r;
  const double scale_shape = -b * wz;
  const double shape_shape = wz + wzz - z;
  const double determinant = scale_scale * shape_shape - scale_shape * scale_shape;
  fit.variance_log_scale = shape_shape / determinant;
  fit.variance_log_shape = scale_scale / determinant;
  fit.covariance = -scale_shape / determinant;
}

}  // namespace

std::optional<WeibullFit> fit_weibull(const WeibullData& data) {
  if (data.returned() == 0 || data.mean_returned_x() >= 0) return std::nullopt;
  const auto r = static_cast<double>(data.returned());
  WeibullFit fit;
  fit.shape = solve_shape(data);
  const auto p = data.powers(fit.shape);
  const double log_scale = std::log(p.sum / r) / fit.shape;  // of η/longest
  fit.scale = seconds(std::exp(log_scale + data.log_longest()));
  fit.log_likelihood = r * (std::log(fit.shape) + fit.shape * (data.mean_returned_x() - log_scale) - 1) -
                       data.log_sum_returned();
  add_covariance(data, p, fit);
  return fit;
}

Time life_at(const WeibullData& data, const WeibullFit& fit, double part) {
  return data.threshold() + fit.scale * std::pow(-std::log1p(-part), 1 / fit.shape);
}

double surviving_at(const WeibullData& data, const WeibullFit& fit, Time time) {
  const double since = (time - data.threshold()) / fit.scale;
  return since <= 0 ? 1 : std::exp(-std::pow(since, fit.shape));
}

}  // namespace pumpwright::reliability

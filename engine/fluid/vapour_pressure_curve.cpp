#include "engine/fluid/vapour_pressure_curve.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <Eigen/Dense>
#include <fmt/format.h>

#include "engine/fluid/known_range.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::fluid {
namespace {

constexpr double lowest_pa = 1e-3;
constexpr double highest_pa = 1e9;

[[noreturn]] void refuse(const std::string& field, const std::string& value, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

std::string shown(const VapourPressurePoint& point) {
  return fmt::format("{:.6g} Pa at {:.6g} K", point.p.value.value(), kelvin_of(point.t));
}

void require_points(const std::vector<VapourPressurePoint>& points) {
  if (points.size() < 2)
    refuse("vapour pressure", fmt::format("{} points", points.size()), "two points or more");
  for (const auto& point : points) {
    require_temperature(point.t, kelvin(100), kelvin(1500), "vapour pressure points");
    require_pressure(point.p, {pascals(lowest_pa)}, {pascals(highest_pa)}, "vapour pressure points");
  }
  for (std::size_t i = 1; i < points.size(); ++i)
    if (!(kelvin_of(points[i].t) > kelvin_of(points[i - 1].t) && points[i].p.value > points[i - 1].p.value))
      refuse("vapour pressure", shown(points[i - 1]) + ", " + shown(points[i]),
             "points of different temperature, each warmer one of higher pressure");
}

struct Antoine {
  double a;
  double b;
  double c;
};

double log_of(const Antoine& curve, double t_k) {
  return curve.a - curve.b / (t_k + curve.c);
}

struct Logs {
  Eigen::VectorXd t;
  Eigen::VectorXd log_p;
};

Logs logs_of(const std::vector<VapourPressurePoint>& points) {
  const auto count = static_cast<Eigen::Index>(points.size());
  Logs logs{Eigen::VectorXd(count), Eigen::VectorXd(count)};
  for (Eigen::Index i = 0; i < count; ++i) {
    logs.t(i) = kelvin_of(points[static_cast<std::size_t>(i)].t);
    logs.log_p(i) = std::log(points[static_cast<std::size_t>(i)].p.value.value());
  }
  return logs;
}

// T ln p = A T - C ln p + (A C - B) is linear in A, C and the last bracket.
Antoine first_guess(const Logs& logs) {
  Eigen::MatrixXd design(logs.t.size(), 3);
  design << logs.t, -logs.log_p, Eigen::VectorXd::Ones(logs.t.size());
  const Eigen::Vector3d x = design.colPivHouseholderQr().solve(logs.t.cwiseProduct(logs.log_p));
  return {x(0), x(0) * x(1) - x(2), x(1)};
}

// For one C the best A and B follow from a straight line; returns the sum of squares too.
struct Line {
  Antoine curve;
  double squares;
};

Line best_line(const Logs& logs, double c) {
  const Eigen::ArrayXd x = 1 / (logs.t.array() + c);
  const double x_mean = x.mean();
  const double y_mean = logs.log_p.mean();
  const Eigen::ArrayXd dx = x - x_mean;
  const Eigen::ArrayXd dy = logs.log_p.array() - y_mean;
  const double slope = (dx * dy).sum() / (dx * dx).sum();
  return {{y_mean - slope * x_mean, -slope, c}, (dy - slope * dx).square().sum()};
}

// Gauss-Newton in A, B and C, each step shortened until it helps.
Antoine fitted(const Logs& logs) {
  Line best = best_line(logs, first_guess(logs).c);
  for (int turn = 0; turn < 100; ++turn) {
    const Eigen::ArrayXd x = 1 / (logs.t.array() + best.curve.c);
    Eigen::MatrixXd slopes(logs.t.size(), 3);
    slopes << Eigen::VectorXd::Ones(logs.t.size()), (-x).matrix(), (best.curve.b * x * x).matrix();
    const Eigen::VectorXd misses = (logs.log_p.array() - best.curve.a + best.curve.b * x).matrix();
    double step = slopes.colPivHouseholderQr().solve(misses)(2);
    const double c_before = best.curve.c;
    for (int half = 0; half < 40 && best.curve.c == c_before; ++half, step /= 2) {
      const Line next = best_line(logs, c_before + step);
      if (next.squares < best.squares) best = next;
    }
    if (std::fabs(best.curve.c - c_before) <= 1e-12 * logs.t.maxCoeff()) break;
  }
  return best.curve;
}

double misfit_of(const Antoine& curve, const Logs& logs) {
  double largest = 0;
  for (Eigen::Index i = 0; i < logs.t.size(); ++i)
    largest = std::max(largest, std::fabs(std::expm1(log_of(curve, logs.t(i)) - logs.log_p(i))));
  return largest;
}

}  // namespace

VapourPressureCurve::VapourPressureCurve(std::vector<VapourPressurePoint> points) {
  std::sort(points.begin(), points.end(),
            [](const auto& l, const auto& r) { return kelvin_of(l.t) < kelvin_of(r.t); });
  require_points(points);
  lowest_ = points.front().t;
  highest_ = points.back().t;
  const Logs logs = logs_of(points);
  antoine_ = points.size() > 2;
  const Antoine curve = antoine_ ? fitted(logs) : best_line(logs, 0).curve;
  if (antoine_) misfit_ = misfit_of(curve, logs);
  const bool rises = std::isfinite(curve.a) && curve.b > 0 && kelvin_of(lowest_) + curve.c > 0;
  if (!rises || !(misfit_ <= misfit_max))
    refuse("vapour pressure",
           fmt::format("{} points, the best curve misses one by {:.3g} %", points.size(), 100 * misfit_),
           "points that one Antoine curve fits to 10 %");
  a_ = curve.a;
  b_ = curve.b;
  c_ = curve.c;
}

double VapourPressureCurve::log_pressure(double t_k) const {
  return log_of({a_, b_, c_}, t_k);
}

AbsolutePressure VapourPressureCurve::pressure(Temperature t) const {
  require_temperature(t, lowest_, highest_, "the vapour pressure points");
  return {pascals(std::exp(log_pressure(kelvin_of(t))))};
}

Temperature VapourPressureCurve::temperature(AbsolutePressure p) const {
  require_pressure(p, {pressure(lowest_).value * (1 - saturated_within)},
                   {pressure(highest_).value * (1 + saturated_within)}, "the vapour pressure points");
  const double t_k = b_ / (a_ - std::log(p.value.value())) - c_;
  return kelvin(std::clamp(t_k, kelvin_of(lowest_), kelvin_of(highest_)));
}

}  // namespace pumpwright::fluid

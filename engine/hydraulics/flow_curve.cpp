#include "engine/hydraulics/flow_curve.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

constexpr std::size_t columns_max = highest_degree + 1;
using Row = std::array<double, columns_max>;
using Square = std::array<Row, columns_max>;

Row chebyshev(double t) {
  Row row{1, t, 0, 0, 0};
  for (std::size_t j = 2; j < columns_max; ++j)
    row[j] = 2 * t * row[j - 1] - row[j - 2];
  return row;
}

// Chebyshev coefficients as coefficients of powers of t.
Row to_powers(const Row& c) {
  return {c[0] - c[2] + c[4], c[1] - 3 * c[3], 2 * c[2] - 8 * c[4], 4 * c[3], 8 * c[4]};
}

[[noreturn]] void refuse_points(std::size_t count, const std::string& expected) {
  throw BadInput({"points", "", fmt::format("{} points", count), expected});
}

// Cholesky of the symmetric matrix, in place; false when it is not positive definite to working accuracy.
bool solve(Square& a, Row& b, std::size_t n) {
  const double largest = a[0][0];
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t k = 0; k < j; ++k)
      a[j][j] -= a[j][k] * a[j][k];
    if (!(a[j][j] > 1e-12 * largest)) return false;
    a[j][j] = std::sqrt(a[j][j]);
    for (std::size_t i = j + 1; i < n; ++i) {
      for (std::size_t k = 0; k < j; ++k)
        a[i][j] -= a[i][k] * a[j][k];
      a[i][j] /= a[j][j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k)
      b[i] -= a[i][k] * b[k];
    b[i] /= a[i][i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k)
      b[i] -= a[k][i] * b[k];
    b[i] /= a[i][i];
  }
  return true;
}

// Slope at an end from the two nearest spacings and secants, kept from overshooting.
double end_slope(double h0, double h1, double d0, double d1) {
  const double slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0) return 0;
  if (d0 * d1 < 0 && std::abs(slope) > 3 * std::abs(d0)) return 3 * d0;
  return slope;
}

std::vector<double> pchip_slopes(std::span<const double> x, std::span<const double> y) {
  const std::size_t n = x.size();
  std::vector<double> h(n - 1), d(n - 1), m(n);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    h[i] = x[i + 1] - x[i];
    d[i] = (y[i + 1] - y[i]) / h[i];
  }
  if (n == 2) return {d[0], d[0]};
  for (std::size_t i = 1; i + 1 < n; ++i) {
    if (d[i - 1] * d[i] <= 0) continue;
    const double w0 = 2 * h[i] + h[i - 1];
    const double w1 = h[i] + 2 * h[i - 1];
    m[i] = (w0 + w1) / (w0 / d[i - 1] + w1 / d[i]);
  }
  m[0] = end_slope(h[0], h[1], d[0], d[1]);
  m[n - 1] = end_slope(h[n - 2], h[n - 3], d[n - 2], d[n - 3]);
  return m;
}

}  // namespace

FlowCurve FlowCurve::through(std::span<const double> flow, std::span<const double> value,
                             const CurveChoice& choice) {
  assert(flow.size() == value.size());
  const auto finite = [](double v) { return std::isfinite(v); };
  if (!std::all_of(flow.begin(), flow.end(), finite) || !std::all_of(value.begin(), value.end(), finite))
    refuse_points(flow.size(), "finite numbers");
  if (choice.kind == CurveKind::pchip) return pchip(flow, value);
  if (choice.degree < 1 || choice.degree > highest_degree)
    throw BadInput({"degree", "", fmt::format("{}", choice.degree), "a degree from 1 to 4"});
  return polynomial(flow, value, choice.degree);
}

FlowCurve FlowCurve::polynomial(std::span<const double> flow, std::span<const double> value, int degree) {
  const auto n = static_cast<std::size_t>(degree) + 1;
  if (flow.size() < n) refuse_points(flow.size(), fmt::format("at least {} points for degree {}", n, degree));
  const auto [low, high] = std::minmax_element(flow.begin(), flow.end());
  if (!(*high > *low)) refuse_points(flow.size(), "points at different flows");
  FlowCurve curve;
  curve.knots_ = {*low, *high};
  Piece piece;
  piece.from = (*low + *high) / 2;
  piece.per_flow = 2 / (*high - *low);
  Square a{};
  Row b{};
  for (std::size_t i = 0; i < flow.size(); ++i) {
    const Row row = chebyshev((flow[i] - piece.from) * piece.per_flow);
    for (std::size_t j = 0; j < n; ++j) {
      b[j] += row[j] * value[i];
      for (std::size_t k = 0; k <= j; ++k)
        a[j][k] += row[j] * row[k];
    }
  }
  if (!solve(a, b, n))
    refuse_points(flow.size(), fmt::format("at least {} different flows for degree {}", n, degree));
  const Row powers = to_powers(b);
  std::copy(powers.begin(), powers.end(), piece.c);
  curve.pieces_ = {piece};
  return curve;
}

FlowCurve FlowCurve::pchip(std::span<const double> flow, std::span<const double> value) {
  if (flow.size() < 2) refuse_points(flow.size(), "at least 2 points");
  std::vector<std::size_t> order(flow.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) { return flow[i] < flow[j]; });
  FlowCurve curve;
  std::vector<double> y;
  for (const std::size_t i : order) {
    if (!curve.knots_.empty() && !(flow[i] > curve.knots_.back()))
      refuse_points(flow.size(), "points at different flows (for repeated flows: a polynomial)");
    curve.knots_.push_back(flow[i]);
    y.push_back(value[i]);
  }
  const auto m = pchip_slopes(curve.knots_, y);
  for (std::size_t i = 0; i + 1 < y.size(); ++i) {
    const double h = curve.knots_[i + 1] - curve.knots_[i];
    const double rise = y[i + 1] - y[i];
    Piece piece;
    piece.from = curve.knots_[i];
    piece.per_flow = 1 / h;
    piece.c[0] = y[i];
    piece.c[1] = h * m[i];
    piece.c[2] = 3 * rise - h * (2 * m[i] + m[i + 1]);
    piece.c[3] = -2 * rise + h * (m[i] + m[i + 1]);
    curve.pieces_.push_back(piece);
  }
  return curve;
}

const FlowCurve::Piece& FlowCurve::piece_at(double flow) const {
  if (pieces_.size() == 1) return pieces_.front();
  const auto above = std::upper_bound(knots_.begin() + 1, knots_.end() - 1, flow);
  return pieces_[static_cast<std::size_t>(above - knots_.begin()) - 1];
}

double FlowCurve::at(double flow) const {
  const Piece& p = piece_at(flow);
  const double s = (flow - p.from) * p.per_flow;
  return p.c[0] + s * (p.c[1] + s * (p.c[2] + s * (p.c[3] + s * p.c[4])));
}

double FlowCurve::slope_at(double flow) const {
  const Piece& p = piece_at(flow);
  const double s = (flow - p.from) * p.per_flow;
  return p.per_flow * (p.c[1] + s * (2 * p.c[2] + s * (3 * p.c[3] + s * 4 * p.c[4])));
}

double residual_sd(const FlowCurve& curve, std::span<const double> flow, std::span<const double> value,
                   const CurveChoice& choice) {
  const auto parameters = static_cast<std::size_t>(choice.degree) + 1;
  if (choice.kind == CurveKind::pchip || flow.size() <= parameters) return 0;
  double sum = 0;
  for (std::size_t i = 0; i < flow.size(); ++i)
    sum += std::pow(value[i] - curve.at(flow[i]), 2);
  return std::sqrt(sum / static_cast<double>(flow.size() - parameters));
}

}  // namespace pumpwright::hydraulics

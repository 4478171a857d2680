#include "engine/metrology/sweep_fit.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/metrology/qr_accumulator.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::sweep_detail {
namespace {

// Columns whose own part is smaller than this share of an even sweep's are not there at all.
constexpr double vanished = 1e-9;

int order_to_try(std::size_t places) {
  return std::min(highest_order, static_cast<int>((places - 1) / 2));
}

}  // namespace

void fill_basis(double cos_1, double sin_1, int order, std::span<double> out) {
  out[0] = 1;
  double c = 1;
  double s = 0;
  for (int k = 1; k <= order; ++k) {
    const double next_c = c * cos_1 - s * sin_1;
    s = s * cos_1 + c * sin_1;
    c = next_c;
    out[static_cast<std::size_t>(2 * k - 1)] = c;
    out[2 * static_cast<std::size_t>(k)] = s;
  }
}

HarmonicFit::HarmonicFit(const PlacedSweep& sweep) : count_(sweep.points.size()) {
  const int tried = order_to_try(sweep.places_rad.size());
  const std::size_t columns = columns_of(tried);
  QrAccumulator qr(columns + 1, count_);
  std::array<double, columns_max + 1> row{};
  for (const SurfacePoint& p : sweep.points) {
    fill_basis(p.cos_1, p.sin_1, tried, row);
    row[columns] = p.deviation_m;
    qr.add(std::span(row).first(columns + 1));
  }
  qr.finish();

  const double even = std::sqrt(0.5 * static_cast<double>(count_));
  stride_ = 0;
  while (stride_ < columns && std::fabs(qr.r(stride_, stride_)) > vanished * even)
    ++stride_;
  t_ = qr.inverse(stride_);
  z_m_.resize(stride_);
  for (std::size_t j = 0; j < stride_; ++j)
    z_m_[j] = qr.r(j, columns);
  for (std::size_t j = stride_; j <= columns; ++j)
    rss_tried_m2_ += qr.r(j, columns) * qr.r(j, columns);

  order_ = carried(sweep.places_rad.size());
  if (order_ == 0) {
    throw BadInput({.field = "sweep",
                    .place = "",
                    .value = fmt::format("{} places crowded on too short an arc", sweep.places_rad.size()),
                    .expected = "places spread round the turn"});
  }
}

// Variances grow with every order that is added, so the first order that costs too much ends the search.
int HarmonicFit::carried(std::size_t places) const {
  const auto n = static_cast<double>(count_);
  std::array<double, columns_max> variance{};
  for (int k = 0; k <= order_to_try(places); ++k) {
    const std::size_t columns = columns_of(k);
    if (columns > stride_) return k - 1;
    for (std::size_t j = k == 0 ? 0 : columns - 2; j < columns; ++j) {
      for (std::size_t i = 0; i <= j; ++i)
        variance[i] += t(i, j) * t(i, j);
    }
    const double limit = k <= 3 ? carry_limit : carry_limit_high;
    for (std::size_t i = 0; i < columns; ++i) {
      const double even = i == 0 ? 1 / n : 2 / n;
      if (variance[i] > limit * limit * even) return std::max(0, k - 1);
    }
  }
  return order_to_try(places);
}

double HarmonicFit::rss_m2(int order) const {
  double sum = rss_tried_m2_;
  for (std::size_t j = columns_of(order); j < stride_; ++j)
    sum += z_m_[j] * z_m_[j];
  return sum;
}

std::vector<double> HarmonicFit::coefficients_m(int order) const {
  const std::size_t columns = columns_of(order);
  std::vector<double> beta(columns, 0.0);
  for (std::size_t i = 0; i < columns; ++i) {
    for (std::size_t j = i; j < columns; ++j)
      beta[i] += t(i, j) * z_m_[j];
  }
  return beta;
}

double HarmonicFit::cofactor(int order, std::size_t i, std::size_t j) const {
  double sum = 0;
  for (std::size_t k = std::max(i, j); k < columns_of(order); ++k)
    sum += t(i, k) * t(j, k);
  return sum;
}

double HarmonicFit::leverage(int order, std::span<const double> basis) const {
  double h = 0;
  for (std::size_t j = 0; j < columns_of(order); ++j) {
    double w = 0;
    for (std::size_t i = 0; i <= j; ++i)
      w += basis[i] * t(i, j);
    h += w * w;
  }
  return h;
}

}  // namespace pumpwright::sweep_detail

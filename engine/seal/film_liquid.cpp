#include "engine/seal/film_liquid.h"

#include <algorithm>
#include <cmath>

namespace pumpwright::seal {
namespace {

constexpr double widest_step_k = 2;
constexpr double just_above = 1 + 1e-9;  // saturation, so that no correlation rounds it to vapour
constexpr double no_vapour_pa = 1e-12;   // of a liquid that practically has none; keeps the logarithm finite

// Derivative per step at every node, to fourth order: central inside, one-sided at the two ends.
std::vector<double> slopes_of(const std::vector<double>& y) {
  const std::size_t n = y.size();
  std::vector<double> slope(n);
  for (std::size_t i = 2; i + 2 < n; ++i)
    slope[i] = (8 * (y[i + 1] - y[i - 1]) - (y[i + 2] - y[i - 2])) / 12;
  // k-th value from the low end, or with the sign turned from the high end.
  const auto at_end = [&](std::size_t (*place)(std::size_t, std::size_t), double sign) {
    const auto v = [&](std::size_t k) { return y[place(k, n)]; };
    slope[place(0, n)] = sign * (-25 * v(0) + 48 * v(1) - 36 * v(2) + 16 * v(3) - 3 * v(4)) / 12;
    slope[place(1, n)] = sign * (-3 * v(0) - 10 * v(1) + 18 * v(2) - 6 * v(3) + v(4)) / 12;
  };
  at_end([](std::size_t k, std::size_t) { return k; }, 1);
  at_end([](std::size_t k, std::size_t count) { return count - 1 - k; }, -1);
  return slope;
}

struct Interpolated {
  double value = 0;
  double slope = 0;  // per step
};

// Cubic Hermite at `x` steps from the first node; constant beyond the ends.
Interpolated interpolate(const std::vector<double>& y, const std::vector<double>& slope, double x) {
  const std::size_t n = y.size();
  if (!(x > 0)) return {y.front(), 0};
  if (x >= static_cast<double>(n - 1)) return {y.back(), 0};
  const auto i = static_cast<std::size_t>(x);
  const double t = x - static_cast<double>(i);
  const double da = slope[i];
  const double c2 = 3 * (y[i + 1] - y[i]) - 2 * da - slope[i + 1];
  const double c3 = 2 * (y[i] - y[i + 1]) + da + slope[i + 1];
  return {y[i] + t * (da + t * (c2 + t * c3)), da + t * (2 * c2 + t * 3 * c3)};
}

}  // namespace

FilmLiquid::FilmLiquid(const fluid::Liquid& liquid, AbsolutePressure p) {
  first_k_ = kelvin_of(liquid.lowest_temperature());
  const double range_k = kelvin_of(liquid.highest_temperature()) - first_k_;
  const auto intervals = static_cast<std::size_t>(std::max(8.0, std::ceil(range_k / widest_step_k)));
  step_k_ = range_k / static_cast<double>(intervals);
  for (std::size_t i = 0; i <= intervals; ++i) {
    // The last node is the end of the range itself, not a rounding beyond it.
    const Temperature t =
        i == intervals ? liquid.highest_temperature() : kelvin(first_k_ + step_k_ * static_cast<double>(i));
    const double saturation_pa = liquid.saturation_pressure(t).value.value();
    const AbsolutePressure at{pascals(std::max(p.value.value(), saturation_pa * just_above))};
    log_saturation_.push_back(std::log(std::max(no_vapour_pa, saturation_pa)));
    log_viscosity_.push_back(std::log(liquid.viscosity(t, at).value()));
    heat_.push_back(liquid.density(t, at).value() * liquid.heat_capacity(t, at).value());
  }
  viscosity_slope_ = slopes_of(log_viscosity_);
  saturation_slope_ = slopes_of(log_saturation_);
  heat_slope_ = slopes_of(heat_);
}

FilmLiquid::Viscosity FilmLiquid::viscosity(double t_k) const {
  const Interpolated log = interpolate(log_viscosity_, viscosity_slope_, (t_k - first_k_) / step_k_);
  const double pa_s = std::exp(log.value);
  return {pa_s, pa_s * log.slope / step_k_};
}

double FilmLiquid::saturation_pa(double t_k) const {
  return std::exp(interpolate(log_saturation_, saturation_slope_, (t_k - first_k_) / step_k_).value);
}

double FilmLiquid::heat_per_volume_j_m3k(double t_k) const {
  return interpolate(heat_, heat_slope_, (t_k - first_k_) / step_k_).value;
}

}  // namespace pumpwright::seal

#include "engine/reliability/weibull_threshold.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include "engine/metrology/quantiles.h"

namespace pumpwright::reliability {
namespace {

constexpr std::size_t returns_min = 3;
constexpr int grid_points = 60;
constexpr double grid_decades = 6;       // how near to the first return the search goes: 1e-6 of it
constexpr int half_precision_bits = 26;  // as sharp as a minimum can be found in double

double first_return_s(std::span<const Life> lives) {
  double first_s = std::numeric_limits<double>::infinity();
  for (const Life& life : lives)
    if (life.ending == Ending::returned) first_s = std::min(first_s, life.time.value());
  return first_s;
}

// The best that the other two parameters do with each threshold. Written over v = -ln(1 - threshold/first),
// which stretches the end where the likelihood changes quickly.
class Profile {
 public:
  Profile(std::span<const Life> lives, double first_s) : lives_(lives), first_s_(first_s) {}

  double threshold_s(double v) const { return -std::expm1(-v) * first_s_; }

  std::optional<WeibullFit> fit(double v) const {
    const auto fit = fit_weibull(WeibullData(lives_, seconds(threshold_s(v))));
    return fit && fit->shape >= 1 ? fit : std::nullopt;
  }

  double log_likelihood(double v) const {
    const auto best = fit(v);
    return best ? best->log_likelihood : -std::numeric_limits<double>::infinity();
  }

 private:
  std::span<const Life> lives_;
  double first_s_;
};

std::vector<double> grid() {
  std::vector<double> points;
  const double end = grid_decades * std::log(10.0);
  for (int i = 0; i <= grid_points; ++i)
    points.push_back(end * i / grid_points);
  return points;
}

// The highest inner or left-end point of the profile; nothing when the profile only rises to its right end.
std::optional<double> best_v(const Profile& profile) {
  const auto v = grid();
  std::vector<double> l;
  l.reserve(v.size());
  for (const double at : v)
    l.push_back(profile.log_likelihood(at));
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i + 1 < v.size(); ++i) {
    const bool is_top = std::isfinite(l[i]) && l[i] >= l[i + 1] && (i == 0 || l[i] >= l[i - 1]);
    if (is_top && std::isfinite(l[i + 1]) && (!best || l[i] > l[*best])) best = i;
  }
  if (!best) return std::nullopt;
  const auto [at, lowest] =
      boost::math::tools::brent_find_minima([&](double x) { return -profile.log_likelihood(x); },
                                            v[*best == 0 ? 0 : *best - 1], v[*best + 1], half_precision_bits);
  return profile.log_likelihood(0) >= -lowest ? 0 : at;
}

// Where the profile crosses `level` between `inside` (above it) and `outside`; `outside` itself when it does
// not fall below.
double crossing(const Profile& profile, double level, double inside, double outside) {
  const auto above = [&](double v) {
    const double l = profile.log_likelihood(v);
    return std::isfinite(l) ? l - level : -1.0;
  };
  const double at_outside = above(outside);
  if (at_outside >= 0 || inside == outside) return outside;
  const double at_inside = std::max(above(inside), 0.0);
  if (at_inside == 0) return inside;
  std::uintmax_t iterations = 100;
  const auto [a, b] = boost::math::tools::toms748_solve(
      above, std::min(inside, outside), std::max(inside, outside), inside < outside ? at_inside : at_outside,
      inside < outside ? at_outside : at_inside, boost::math::tools::eps_tolerance<double>(40), iterations);
  return (a + b) / 2;
}

}  // namespace

std::optional<ThresholdFit> fit_threshold(std::span<const Life> lives, double confidence) {
  require_valid(lives);
  if (count_of(lives, Ending::returned) < returns_min) return std::nullopt;
  const Profile profile(lives, first_return_s(lives));
  const auto v = best_v(profile);
  if (!v) return std::nullopt;
  const double z = normal_quantile((1 + confidence) / 2);
  const auto best = profile.fit(*v);
  const double level = best->log_likelihood - z * z / 2;
  const double low_v = crossing(profile, level, *v, 0);
  const double high_v = crossing(profile, level, *v, grid().back());
  return ThresholdFit{.threshold = seconds(profile.threshold_s(*v)),
                      .low = seconds(profile.threshold_s(low_v)),
                      .high = seconds(profile.threshold_s(high_v)),
                      .is_proven = low_v > 0,
                      .fit = *best};
}

}  // namespace pumpwright::reliability

#include "engine/hydraulics/npsh.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double drop = 0.03;

struct Run {
  std::vector<double> npsh_m, head_m;  // from high NPSH to low
};

Run sorted(std::span<const SuppressionPoint> points) {
  std::vector<SuppressionPoint> by_npsh(points.begin(), points.end());
  std::sort(by_npsh.begin(), by_npsh.end(),
            [](const SuppressionPoint& a, const SuppressionPoint& b) { return a.npsh > b.npsh; });
  Run run;
  for (const auto& p : by_npsh) {
    require_between(p.npsh.value(), 1e-3, 1000, "npsh", "a suction head over 0");
    require_between(p.head.value(), 1e-3, 1e5, "head", "a head over 0");
    require_that(run.npsh_m.empty() || p.npsh.value() < run.npsh_m.back(), p.npsh.value(), "npsh",
                 "every point at another suction head");
    run.npsh_m.push_back(p.npsh.value());
    run.head_m.push_back(p.head.value());
  }
  return run;
}

double full_head_m(const Run& run, std::size_t plateau) {
  double sum = 0;
  for (std::size_t i = 0; i < plateau; ++i)
    sum += run.head_m[i];
  return sum / static_cast<double>(plateau);
}

// Number of the first point below the limit after the plateau; 0 when there is none.
std::size_t first_below(const Run& run, std::size_t plateau) {
  const double limit_m = (1 - drop) * full_head_m(run, plateau);
  for (std::size_t i = 0; i < run.head_m.size(); ++i)
    if (run.head_m[i] < limit_m) return i;
  return 0;
}

// Straight between points `at` - 1 and `at`, which stay the same when heads move within their uncertainty.
double crossing_m(const Run& run, std::size_t plateau, std::size_t at) {
  const double limit_m = (1 - drop) * full_head_m(run, plateau);
  const double share = (limit_m - run.head_m[at]) / (run.head_m[at - 1] - run.head_m[at]);
  return run.npsh_m[at] + share * (run.npsh_m[at - 1] - run.npsh_m[at]);
}

}  // namespace

Length npsh_available(const SuctionSide& side, const fluid::Liquid& liquid) {
  require_between(side.level.value(), -1000, 1000, "level", "a level from -1000 m to 1000 m");
  require_between(side.loss.value(), 0, 1000, "loss", "a loss from 0 to 1000 m");
  const AbsolutePressure vapour = liquid.saturation_pressure(side.temperature);
  const AbsolutePressure at{side.surface.value > vapour.value ? side.surface.value : vapour.value};
  const double weight_n_m3 = liquid.density(side.temperature, at).value() * standard_gravity_m_s2;
  return metres((side.surface.value - vapour.value).value() / weight_n_m3) + side.level - side.loss;
}

Npsh3 npsh3_of(std::span<const SuppressionPoint> points, std::size_t plateau, const SuppressionDoubt& doubt) {
  require_between(static_cast<double>(points.size()), 3, 200, "points",
                  "3 to 200 points of a suppression run");
  require_between(static_cast<double>(plateau), 2, static_cast<double>(points.size() - 1), "plateau",
                  "2 points or more, but not all");
  require_that(doubt.head.value() >= 0, doubt.head.value(), "head_error", "not below 0");
  require_that(doubt.npsh.value() >= 0, doubt.npsh.value(), "npsh_error", "not below 0");
  Run run = sorted(points);
  const std::size_t at = first_below(run, plateau);
  require_that(at != 0, run.head_m.back(), "head",
               fmt::format("a run down to a head of 97 % of {:.4g} m or less", full_head_m(run, plateau)));
  require_that(at >= plateau, run.head_m[at], "head", "a plateau whose points stay within 3 % of their mean");
  Npsh3 out;
  out.head_full_m = full_head_m(run, plateau);
  out.next_below_m = run.npsh_m[at];
  out.next_above_m = run.npsh_m[at - 1];
  out.npsh_m.value = crossing_m(run, plateau, at);
  double variance = std::pow(doubt.npsh.value(), 2);
  // A thousandth of the uncertainty keeps the difference within the piece; the crossing is smooth there.
  const double step_m = 1e-3 * doubt.head.value();
  for (std::size_t i = 0; step_m > 0 && i < run.head_m.size(); ++i) {
    const double head_m = run.head_m[i];
    run.head_m[i] = head_m + step_m;
    const double up = crossing_m(run, plateau, at);
    run.head_m[i] = head_m - step_m;
    const double down = crossing_m(run, plateau, at);
    run.head_m[i] = head_m;
    variance += std::pow((up - down) / (2 * step_m) * doubt.head.value(), 2);
  }
  out.npsh_m.u = std::sqrt(variance);
  return out;
}

Length npsh_at_speed(Length npsh, double speed_ratio, double exponent) {
  require_that(speed_ratio > 0, speed_ratio, "speed", "a ratio of speeds over 0");
  require_between(exponent, 1.3, 2, "exponent", "an exponent from 1.3 to 2");
  return npsh * std::pow(speed_ratio, exponent);
}

}  // namespace pumpwright::hydraulics

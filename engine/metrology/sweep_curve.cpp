#include "engine/metrology/sweep_curve.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace pumpwright::sweep_detail {
namespace {

constexpr std::size_t grid_per_order = 12;

struct Local {
  double value = 0, slope = 0, curvature = 0;
};

Local evaluate(std::span<const double> beta, double theta_rad) {
  const double cos_1 = std::cos(theta_rad);
  const double sin_1 = std::sin(theta_rad);
  Local local{.value = beta[0]};
  double c = 1;
  double s = 0;
  for (std::size_t k = 1; 2 * k < beta.size(); ++k) {
    const double next_c = c * cos_1 - s * sin_1;
    s = s * cos_1 + c * sin_1;
    c = next_c;
    const auto order = static_cast<double>(k);
    const double even = beta[2 * k - 1] * c + beta[2 * k] * s;
    local.value += even;
    local.slope += order * (beta[2 * k] * c - beta[2 * k - 1] * s);
    local.curvature -= order * order * even;
  }
  return local;
}

bool in_gap(std::span<const GapSpan> gaps, double theta_rad) {
  const double place_rad = gaps.empty() ? 0 : wrapped_rad(theta_rad);
  return std::any_of(gaps.begin(), gaps.end(), [&](const GapSpan& g) { return g.contains(place_rad); });
}

// Climbs from a grid point to the crest beside it (sign +1) or the trough (sign -1), never farther than one
// step: Newton's steps, the last short one by the series instead of another evaluation (its error is of third
// order).
double refined(std::span<const double> beta, double theta_rad, double step_rad, double sign,
               std::span<const GapSpan> gaps) {
  constexpr double short_step_rad = 1e-6;
  double at_rad = theta_rad;
  Local local = evaluate(beta, at_rad);
  const double start = local.value;
  double step = 0;
  for (int i = 0; i < 6 && sign * local.curvature < 0; ++i) {
    const double next_rad =
        std::clamp(at_rad - local.slope / local.curvature, theta_rad - step_rad, theta_rad + step_rad);
    step = next_rad - at_rad;
    if (std::fabs(step) < short_step_rad) break;
    at_rad = next_rad;
    step = 0;
    local = evaluate(beta, at_rad);
  }
  if (in_gap(gaps, at_rad + step)) return start;
  const double value = local.value + step * (local.slope + 0.5 * step * local.curvature);
  return sign * value > sign * start ? value : start;
}

struct Grid {
  std::vector<double> value;
  std::vector<bool> hidden;  // inside a gap; empty without gaps
  double step_rad;
  double slack;  // how far a crest can stand above the grid point beside it
};

Grid grid_of(std::span<const double> beta, std::span<const GapSpan> gaps) {
  const std::size_t order = beta.size() / 2;
  const std::size_t count = grid_per_order * order;
  Grid grid;
  grid.step_rad = 2 * pi / static_cast<double>(count);
  grid.value.resize(count);
  if (!gaps.empty()) grid.hidden.resize(count);
  const double cos_step = std::cos(grid.step_rad);
  const double sin_step = std::sin(grid.step_rad);
  double cos_1 = 1;
  double sin_1 = 0;
  for (std::size_t i = 0; i < count; ++i) {
    double c = 1;
    double s = 0;
    double sum = beta[0];
    for (std::size_t k = 1; k <= order; ++k) {
      const double next_c = c * cos_1 - s * sin_1;
      s = s * cos_1 + c * sin_1;
      c = next_c;
      sum += beta[2 * k - 1] * c + beta[2 * k] * s;
    }
    grid.value[i] = sum;
    if (!gaps.empty()) grid.hidden[i] = in_gap(gaps, static_cast<double>(i) * grid.step_rad);
    const double next_cos = cos_1 * cos_step - sin_1 * sin_step;
    sin_1 = sin_1 * cos_step + cos_1 * sin_step;
    cos_1 = next_cos;
  }
  double bend = 0;
  for (std::size_t k = 1; k <= order; ++k)
    bend += static_cast<double>(k * k) * std::hypot(beta[2 * k - 1], beta[2 * k]);
  grid.slack = bend * grid.step_rad * grid.step_rad / 8;
  return grid;
}

double extreme(std::span<const double> beta, std::span<const GapSpan> gaps, const Grid& grid, double sign) {
  const std::size_t count = grid.value.size();
  const auto shown = [&](std::size_t i) { return grid.hidden.empty() || !grid.hidden[i]; };
  double best = -HUGE_VAL;
  for (const GapSpan& g : gaps) {
    for (const double edge_rad : {g.from_rad, g.from_rad + g.width_rad}) {
      if (!in_gap(gaps, edge_rad)) best = std::max(best, sign * evaluate(beta, edge_rad).value);
    }
  }
  for (std::size_t i = 0; i < count; ++i) {
    if (shown(i)) best = std::max(best, sign * grid.value[i]);
  }
  const double worth = best - grid.slack;
  for (std::size_t i = 0; i < count; ++i) {
    const double here = sign * grid.value[i];
    if (!shown(i) || here < worth) continue;
    const double before = sign * grid.value[i == 0 ? count - 1 : i - 1];
    const double after = sign * grid.value[i + 1 == count ? 0 : i + 1];
    if (here < before || here < after) continue;
    const double theta_rad = static_cast<double>(i) * grid.step_rad;
    best = std::max(best, sign * refined(beta, theta_rad, grid.step_rad, sign, gaps));
  }
  return sign * best;
}

}  // namespace

double curve_range(std::span<const double> beta, std::span<const GapSpan> gaps) {
  if (beta.size() == 3 && gaps.empty()) return 2 * std::hypot(beta[1], beta[2]);
  const Grid grid = grid_of(beta, gaps);
  return std::max(0.0, extreme(beta, gaps, grid, 1) - extreme(beta, gaps, grid, -1));
}

double worst_phase_factor(std::span<const double> places_rad) {
  const std::size_t count = places_rad.size();
  const auto place = [&](std::size_t i) {
    return i < count ? places_rad[i] : places_rad[i - count] + 2 * pi;
  };
  double least = 1;
  double near_done = 0;
  double far_done = 0;
  std::size_t beyond = 0;  // first place, over two turns, not before the point opposite the middle
  for (std::size_t i = 0; i < count; ++i) {
    const double near = 0.5 * (place(i + 1) - place(i));
    const double opposite_rad = place(i) + near + pi;
    while (beyond + 1 < 2 * count && place(beyond) < opposite_rad)
      ++beyond;
    const double far = std::min(std::fabs(place(beyond) - opposite_rad), opposite_rad - place(beyond - 1));
    // Nothing to gain where both are no farther than before, as at every further place of an even sweep.
    if (near <= near_done + 1e-13 && far <= far_done + 1e-13) continue;
    near_done = near;
    far_done = far;
    least = std::min(least, 0.5 * (std::cos(near) + std::cos(far)));
  }
  return std::max(0.0, least);
}

}  // namespace pumpwright::sweep_detail

#include "engine/metrology/sweep_curve.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace pumpwright::sweep_detail {
namespace {

constexpr std::size_t grid_per_order = 16;

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
// step.
double refined(std::span<const double> beta, double theta_rad, double step_rad, double sign,
               std::span<const GapSpan> gaps) {
  double at_rad = theta_rad;
  double best = evaluate(beta, theta_rad).value;
  for (int i = 0; i < 5; ++i) {
    const Local local = evaluate(beta, at_rad);
    if (!(sign * local.curvature < 0)) break;
    const double next_rad =
        std::clamp(at_rad - local.slope / local.curvature, theta_rad - step_rad, theta_rad + step_rad);
    const bool settled = std::fabs(next_rad - at_rad) < 1e-9;
    at_rad = next_rad;
    if (settled) break;
  }
  if (in_gap(gaps, at_rad)) return best;
  const double value = evaluate(beta, at_rad).value;
  return sign * value > sign * best ? value : best;
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

double nearest_apart(std::span<const double> places_rad, double theta_rad) {
  const auto above = std::lower_bound(places_rad.begin(), places_rad.end(), theta_rad);
  const double after = above == places_rad.end() ? places_rad.front() + 2 * pi : *above;
  const double before = above == places_rad.begin() ? places_rad.back() - 2 * pi : *(above - 1);
  return std::min(after - theta_rad, theta_rad - before);
}

}  // namespace

double curve_range(std::span<const double> beta, std::span<const GapSpan> gaps) {
  if (beta.size() == 3 && gaps.empty()) return 2 * std::hypot(beta[1], beta[2]);
  const Grid grid = grid_of(beta, gaps);
  return std::max(0.0, extreme(beta, gaps, grid, 1) - extreme(beta, gaps, grid, -1));
}

double worst_phase_factor(std::span<const double> places_rad) {
  double least = 1;
  for (std::size_t i = 0; i < places_rad.size(); ++i) {
    const bool last = i + 1 == places_rad.size();
    const double next_rad = last ? places_rad.front() + 2 * pi : places_rad[i + 1];
    const double middle_rad = 0.5 * (places_rad[i] + next_rad);
    const double near = 0.5 * (next_rad - places_rad[i]);
    const double far = nearest_apart(places_rad, wrapped_rad(middle_rad + pi));
    least = std::min(least, 0.5 * (std::cos(near) + std::cos(far)));
  }
  return std::max(0.0, least);
}

}  // namespace pumpwright::sweep_detail

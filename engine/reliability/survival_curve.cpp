#include "engine/reliability/survival_curve.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/metrology/quantiles.h"

namespace pumpwright::reliability {
namespace {

// Products of fractions miss the value they should have by a few roundings.
constexpr double rounding = 1e-12;

Band band_of(double surviving, double sigma, double z, BandTransform transform) {
  if (transform == BandTransform::log)
    return {surviving * std::exp(-z * sigma), std::min(1.0, surviving * std::exp(z * sigma))};
  const double spread = std::exp(z * sigma / -std::log(surviving));
  return {std::pow(surviving, spread), std::pow(surviving, 1 / spread)};
}

std::optional<Time> first_time(const SurvivalCurve& curve,
                               const std::function<bool(const CurveStep&)>& is_down) {
  const auto step = std::find_if(curve.steps.begin(), curve.steps.end(), is_down);
  if (step == curve.steps.end()) return std::nullopt;
  return step->time;
}

}  // namespace

SurvivalCurve survival_curve(std::span<const Life> lives, BandTransform transform, double confidence) {
  require_valid(lives);
  const double z = normal_quantile((1 + confidence) / 2);
  SurvivalCurve curve;
  double surviving = 1;
  double variance = 0;  // of ln S
  for (const EndingTime& here : ending_times(lives)) {
    curve.last = here.time;
    if (here.returned == 0) continue;
    const auto n = static_cast<double>(here.at_risk);
    const auto d = static_cast<double>(here.returned);
    surviving = here.returned == here.at_risk ? 0 : surviving * (n - d) / n;
    CurveStep step{.time = here.time, .at_risk = here.at_risk, .returned = here.returned};
    step.surviving = surviving;
    if (surviving > 0) {
      variance += d / (n * (n - d));
      step.standard_error = surviving * std::sqrt(variance);
      step.band = band_of(surviving, std::sqrt(variance), z, transform);
    }
    curve.steps.push_back(step);
  }
  return curve;
}

const CurveStep* step_at(const SurvivalCurve& curve, Time time) {
  const auto after = std::upper_bound(curve.steps.begin(), curve.steps.end(), time,
                                      [](Time t, const CurveStep& step) { return t < step.time; });
  return after == curve.steps.begin() ? nullptr : &*std::prev(after);
}

SurvivalTime time_until(const SurvivalCurve& curve, double part) {
  const double enough = part + rounding;
  const auto end_below = [&](const CurveStep& step, double Band::*end) {
    return !step.band || (*step.band).*end <= enough;
  };
  return {.value = first_time(curve, [&](const CurveStep& s) { return s.surviving <= enough; }),
          .low = first_time(curve, [&](const CurveStep& s) { return end_below(s, &Band::low); }),
          .high = first_time(curve, [&](const CurveStep& s) { return s.band && end_below(s, &Band::high); })};
}

std::vector<Incidence> incidence(std::span<const Life> lives) {
  require_valid(lives);
  std::vector<Incidence> list;
  double out = 1;  // part neither returned nor replaced just before
  Incidence sum;
  for (const EndingTime& here : ending_times(lives)) {
    if (here.returned + here.replaced == 0) continue;
    const auto n = static_cast<double>(here.at_risk);
    sum.time = here.time;
    sum.returned += out * static_cast<double>(here.returned) / n;
    sum.replaced += out * static_cast<double>(here.replaced) / n;
    out *= 1 - static_cast<double>(here.returned + here.replaced) / n;
    list.push_back(sum);
  }
  return list;
}

}  // namespace pumpwright::reliability

#include "engine/metrology/sweep.h"

#include <algorithm>
#include <cmath>

#include "engine/metrology/quantiles.h"
#include "engine/metrology/sweep_curve.h"
#include "engine/metrology/sweep_fit.h"
#include "engine/metrology/sweep_places.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

using sweep_detail::columns_max;
using sweep_detail::columns_of;
using sweep_detail::HarmonicFit;
using sweep_detail::PlacedSweep;
using sweep_detail::SurfacePoint;

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr std::size_t trusted_dof = 3;      // residuals say something from here on
constexpr std::size_t comfortable_dof = 5;  // what higher orders have to leave
constexpr double rounding = 1e-13;          // of the largest deviation: below it a residual is arithmetic
constexpr double region_probability = 0.95;
constexpr double suspect_level = 0.05;    // over the whole sweep
constexpr double suspect_at_least = 2.6;  // no Bonferroni limit for six readings or more lies lower
constexpr double unexplained_level = 0.99;

double square(double v) {
  return v * v;
}

// The instrument's share in one reading, as surface movement [m].
struct InstrumentShare {
  bool stated = false;
  double scatter_m = 0, graduation_m = 0, permissible_m = 0;
  double scatter_dof = infinite;
};

InstrumentShare share_of(const Instrument* instrument, double lever_factor) {
  if (instrument == nullptr) return {};
  InstrumentShare share{.stated = true};
  share.scatter_m = lever_factor * reading_scatter(*instrument).value();
  Instrument dial_only = {.id = {}, .graduation = instrument->graduation};
  dial_only.reading_half_width = instrument->reading_half_width;
  share.graduation_m = lever_factor * reading_scatter(dial_only).value();
  if (instrument->mpe) share.permissible_m = lever_factor * rectangular(*instrument->mpe).value();
  if (instrument->repeatability && instrument->repeatability_dof && share.scatter_m > 0) {
    const double part = lever_factor * instrument->repeatability->value() / share.scatter_m;
    share.scatter_dof = *instrument->repeatability_dof / square(square(part));
  }
  return share;
}

// What one reading scatters by, and how well that is known.
struct Scatter {
  double variance_m2 = 0;
  double dof = 0;
  ScatterFrom from = ScatterFrom::none;
};

// The scatter with an exactly known variance added (Welch-Satterthwaite).
Scatter with_known(Scatter scatter, double known_m2) {
  if (known_m2 <= 0) return scatter;
  const double total_m2 = scatter.variance_m2 + known_m2;
  if (scatter.variance_m2 > 0) scatter.dof *= square(total_m2 / scatter.variance_m2);
  scatter.variance_m2 = total_m2;
  return scatter;
}

// Order whose residuals tell the scatter; 0 when fewer than three degrees of freedom would be left.
int scatter_order(const HarmonicFit& fit) {
  const std::size_t leave = std::max(comfortable_dof, (fit.count() + 2) / 3);
  for (int k = fit.order(); k >= 2; --k) {
    if (fit.count() >= columns_of(k) + leave) return k;
  }
  for (int k = std::min(2, fit.order()); k >= 1; --k) {
    if (fit.count() >= columns_of(k) + trusted_dof) return k;
  }
  return 0;
}

Scatter reading_scatter_of(const HarmonicFit& fit, const InstrumentShare& share, double floor_m) {
  int order = scatter_order(fit);
  if (order == 0 && share.stated)
    return {square(share.scatter_m), share.scatter_dof, ScatterFrom::instrument};
  if (order == 0) {
    if (fit.dof(1) == 0) return {};
    order = 1;
  }
  const auto dof = static_cast<double>(fit.dof(order));
  const double variance_m2 = std::max(fit.rss_m2(order) / dof, square(floor_m));
  if (variance_m2 < square(share.scatter_m))
    return {square(share.scatter_m), share.scatter_dof, ScatterFrom::instrument};
  return {variance_m2, dof, ScatterFrom::residuals};
}

bool residuals_unexplained(const HarmonicFit& fit, const InstrumentShare& share) {
  if (scatter_order(fit) != 0 || !share.stated || share.scatter_m <= 0 || fit.dof(1) == 0) return false;
  const auto dof = static_cast<double>(fit.dof(1));
  return fit.rss_m2(1) > square(share.scatter_m) * chi_square_quantile(unexplained_level, dof);
}

// Readings of one place in different turns: their spread, and how they moved from turn to turn.
struct Repeats {
  std::size_t places = 0, dof = 0;
  double squares_m2 = 0;  // within places
  double drift_sum_m = 0;
  std::size_t pairs = 0;
};

Repeats repeats_of(const PlacedSweep& sweep) {
  Repeats repeats;
  const std::size_t places = sweep.places_rad.size();
  if (sweep.points.size() == places) return repeats;
  std::vector<std::vector<const SurfacePoint*>> at(places);
  for (const SurfacePoint& p : sweep.points)
    at[p.place].push_back(&p);
  for (const auto& list : at) {
    if (list.size() < 2) continue;
    ++repeats.places;
    repeats.dof += list.size() - 1;
    double mean_m = 0;
    for (const SurfacePoint* p : list)
      mean_m += p->deviation_m / static_cast<double>(list.size());
    for (const SurfacePoint* p : list)
      repeats.squares_m2 += square(p->deviation_m - mean_m);
    const auto [early, late] =
        std::minmax_element(list.begin(), list.end(),
                            [](const SurfacePoint* a, const SurfacePoint* b) { return a->turn < b->turn; });
    const auto turns = static_cast<double>((*late)->turn - (*early)->turn);
    repeats.drift_sum_m += ((*late)->deviation_m - (*early)->deviation_m) / turns;
    ++repeats.pairs;
  }
  return repeats;
}

void state_repeats(SweepResult& result, const Repeats& repeats) {
  if (repeats.pairs > 0)
    result.drift_per_turn = metres(repeats.drift_sum_m / static_cast<double>(repeats.pairs));
  if (repeats.places < 2) return;
  result.repeatability = metres(std::sqrt(repeats.squares_m2 / static_cast<double>(repeats.dof)));
  result.repeatability_dof = repeats.dof;
}

void state_tir_read(SweepResult& result, const PlacedSweep& sweep) {
  const auto [low, high] = std::minmax_element(
      sweep.points.begin(), sweep.points.end(),
      [](const SurfacePoint& a, const SurfacePoint& b) { return a.deviation_m < b.deviation_m; });
  result.tir = {metres(high->deviation_m - low->deviation_m)};
  result.highest = high->index;
  result.lowest = low->index;
}

void state_tir_doubt(SweepResult& result, const Scatter& scatter, const InstrumentShare& share,
                     double floor_m) {
  // What the fitted curve leaves over is form as well as scatter; the TIR takes the form in, so its doubt
  // does not.
  Scatter one = share.stated && share.scatter_m > 0
                    ? Scatter{square(share.scatter_m), share.scatter_dof, ScatterFrom::instrument}
                    : scatter;
  if (result.repeatability) {
    one = {square(result.repeatability->value()), static_cast<double>(result.repeatability_dof),
           ScatterFrom::second_turn};
    const double least_m2 = std::max(square(share.graduation_m), square(floor_m));
    if (one.variance_m2 < least_m2)
      one = {least_m2, share.stated ? infinite : one.dof, ScatterFrom::instrument};
  }
  if (one.from == ScatterFrom::none) return;
  one = with_known(one, square(share.permissible_m));
  result.tir_u = metres(std::sqrt(2 * one.variance_m2));
  result.tir_dof = one.dof;
}

void state_harmonics(SweepResult& result, std::span<const double> beta_m, int order) {
  result.mean = metres(beta_m[0]);
  result.harmonics.reserve(static_cast<std::size_t>(order));
  for (int k = 1; k <= order; ++k) {
    const double a_m = beta_m[2 * static_cast<std::size_t>(k) - 1];
    const double b_m = beta_m[2 * static_cast<std::size_t>(k)];
    const double phase_rad = sweep_detail::wrapped_rad(std::atan2(b_m, a_m)) / k;
    result.harmonics.push_back(
        {.order = k, .amplitude = metres(std::hypot(a_m, b_m)), .phase = radians(phase_rad)});
  }
  result.vector = {metres(beta_m[1]), metres(beta_m[2])};
  result.eccentricity = {result.harmonics.front().amplitude};
}

// Form about the least-squares circle, and the fitted curve at the places read.
void state_form(SweepResult& result, const PlacedSweep& sweep, std::span<const double> beta_m, int order,
                std::span<const sweep_detail::GapSpan> gaps) {
  double form_low = infinite, form_high = -infinite, squares = 0;
  double fitted_low = infinite, fitted_high = -infinite;
  std::array<double, columns_max> basis{};
  for (const SurfacePoint& p : sweep.points) {
    sweep_detail::fill_basis(p.cos_1, p.sin_1, order, basis);
    const double circle = beta_m[0] + beta_m[1] * basis[1] + beta_m[2] * basis[2];
    double fitted = circle;
    for (std::size_t j = 3; j < beta_m.size(); ++j)
      fitted += beta_m[j] * basis[j];
    const double form = p.deviation_m - circle;
    form_low = std::min(form_low, form);
    form_high = std::max(form_high, form);
    squares += square(form);
    fitted_low = std::min(fitted_low, fitted);
    fitted_high = std::max(fitted_high, fitted);
  }
  result.ront = metres(form_high - form_low);
  result.ronq = metres(std::sqrt(squares / static_cast<double>(sweep.points.size())));
  const double whole_m = sweep_detail::curve_range(beta_m, gaps);
  result.tir_fitted = {metres(whole_m)};
  result.missed_tir.fitted = metres(std::max(0.0, whole_m - (fitted_high - fitted_low)));
  result.missed_tir.worst_phase =
      2.0 * result.eccentricity.value * (1 - sweep_detail::worst_phase_factor(sweep.places_rad));
}

double quadratic_form(const std::array<double, 4>& c, double a, double b) {
  const double det = c[0] * c[3] - c[1] * c[2];
  if (!(det > 0)) return a == 0 && b == 0 ? 0 : infinite;
  return (c[3] * a * a - 2 * c[1] * a * b + c[0] * b * b) / det;
}

double larger_variance(const std::array<double, 4>& c) {
  return 0.5 * (c[0] + c[3]) + std::hypot(0.5 * (c[0] - c[3]), c[1]);
}

std::array<double, 4> vector_covariance(const HarmonicFit& fit, double variance_m2,
                                        const std::optional<BarSag>& sag, double lever_factor) {
  std::array<double, 4> c{};
  for (std::size_t i = 0; i < 2; ++i) {
    for (std::size_t j = 0; j < 2; ++j)
      c[2 * i + j] = variance_m2 * fit.cofactor(fit.order(), i + 1, j + 1);
  }
  if (!sag) return c;
  // The sag taken out is (S/2)(1 - cos(θ - top)): its doubt lies along the vertical.
  const std::array<double, 2> up{std::cos(sag->top.value()), std::sin(sag->top.value())};
  const double sag_m2 = square(0.5 * lever_factor * sag->u.value());
  for (std::size_t i = 0; i < 2; ++i) {
    for (std::size_t j = 0; j < 2; ++j)
      c[2 * i + j] += sag_m2 * up[i] * up[j];
  }
  return c;
}

void state_vector_doubt(SweepResult& result, const std::array<double, 4>& covariance, double dof) {
  SweepResult::VectorUncertainty doubt{.covariance = covariance, .dof = dof};
  doubt.region_factor = 2 * f_quantile(region_probability, 2, dof);
  const double a_m = result.vector[0].value();
  const double b_m = result.vector[1].value();
  const double e_m = result.eccentricity.value.value();
  doubt.u = metres(std::sqrt(larger_variance(covariance)));
  if (e_m > 0 && !doubt.contains(metres(0), metres(0), result.vector)) {
    const double cos_e = a_m / e_m;
    const double sin_e = b_m / e_m;
    const auto& c = covariance;
    const double along = c[0] * cos_e * cos_e + 2 * c[1] * cos_e * sin_e + c[3] * sin_e * sin_e;
    const double across = c[0] * sin_e * sin_e - 2 * c[1] * cos_e * sin_e + c[3] * cos_e * cos_e;
    doubt.u = metres(std::sqrt(std::max(0.0, along)));
    result.high_spot = result.harmonics.front().phase;
    result.high_spot_u = radians(std::sqrt(std::max(0.0, across)) / e_m);
  }
  result.vector_uncertainty = doubt;
}

// Order of the fit that suspects are named by; 0 for none.
int suspect_order(const HarmonicFit& fit) {
  for (int k = std::min(2, fit.order()); k >= 1; --k) {
    if (fit.count() >= columns_of(k) + trusted_dof) return k;
  }
  return 0;
}

std::vector<Suspect> suspects_of(const PlacedSweep& sweep, const HarmonicFit& fit, double floor_m) {
  std::vector<Suspect> suspects;
  const int order = suspect_order(fit);
  if (order == 0) return suspects;
  const std::vector<double> beta_m = fit.coefficients_m(order);
  const double rss_m2 = fit.rss_m2(order);
  const auto dof = static_cast<double>(fit.dof(order) - 1);
  std::array<double, columns_max> basis{};
  for (const SurfacePoint& p : sweep.points) {
    sweep_detail::fill_basis(p.cos_1, p.sin_1, order, basis);
    double residual_m = p.deviation_m;
    for (std::size_t j = 0; j < beta_m.size(); ++j)
      residual_m -= beta_m[j] * basis[j];
    const double room = 1 - fit.leverage(order, basis);
    if (room < 1e-6) continue;  // a reading that alone fixes a coefficient has no residual to speak of
    const double others_m2 = std::max((rss_m2 - square(residual_m) / room) / dof, square(floor_m));
    if (!(others_m2 > 0)) continue;
    const double t = residual_m / std::sqrt(others_m2 * room);
    if (std::fabs(t) < suspect_at_least) continue;
    const double chance = 2 * student_cdf(-std::fabs(t), dof);
    if (chance * static_cast<double>(fit.count()) >= suspect_level) continue;
    suspects.push_back({.index = p.index,
                        .place = radians(sweep.places_rad[p.place]),
                        .residual = metres(residual_m),
                        .studentized = t});
  }
  std::stable_sort(suspects.begin(), suspects.end(), [](const Suspect& a, const Suspect& b) {
    return std::fabs(a.studentized) > std::fabs(b.studentized);
  });
  return suspects;
}

void state_instrument(SweepResult& result, const Instrument* instrument, const InstrumentShare& share) {
  if (instrument == nullptr) return;
  result.graduation = instrument->graduation;
  result.graduation_u = metres(share.graduation_m);
  result.in_date = instrument->in_date;
}

}  // namespace

bool SweepResult::VectorUncertainty::contains(Length a, Length b, const std::array<Length, 2>& centre) const {
  return quadratic_form(covariance, (a - centre[0]).value(), (b - centre[1]).value()) <= region_factor;
}

SweepResult evaluate_sweep(std::span<const SweepReading> readings, const SweepSetup& setup,
                           const Instrument* instrument) {
  const PlacedSweep sweep = sweep_detail::place_readings(readings, setup);
  const InstrumentShare share = share_of(instrument, sweep.lever_factor);
  const HarmonicFit fit(sweep);
  const double floor_m = rounding * sweep.largest_m;

  SweepResult result;
  result.count = sweep.points.size();
  result.left_out = sweep.left_out;
  result.places = sweep.places_rad.size();
  result.mount = setup.mount;
  result.axis = setup.axis;
  result.carried_order = fit.order();
  if (sweep.closure_m) result.closure = metres(*sweep.closure_m);
  state_instrument(result, instrument, share);
  state_tir_read(result, sweep);
  const std::vector<double> beta_m = fit.coefficients_m(fit.order());
  state_harmonics(result, beta_m, fit.order());
  state_form(result, sweep, beta_m, fit.order(), sweep_detail::gap_spans(setup));
  state_repeats(result, repeats_of(sweep));

  const Scatter scatter = reading_scatter_of(fit, share, floor_m);
  state_tir_doubt(result, scatter, share, floor_m);
  if (scatter.from != ScatterFrom::none) {
    const Scatter whole = with_known(scatter, square(share.permissible_m));
    result.reading_u = metres(std::sqrt(whole.variance_m2));
    result.reading_dof = whole.dof;
    result.scatter_from = scatter.from;
    state_vector_doubt(result, vector_covariance(fit, whole.variance_m2, setup.sag, sweep.lever_factor),
                       whole.dof);
  }
  result.residuals_unexplained = residuals_unexplained(fit, share);
  result.suspects = suspects_of(sweep, fit, std::max(floor_m, share.scatter_m));
  return result;
}

std::optional<Angle> claimed_high_spot(const SweepResult& result) {
  return result.mount == Mount::unknown ? std::nullopt : result.high_spot;
}

std::optional<Measured<Tir>> tir_measured(const SweepResult& result) {
  if (!result.tir_u) return std::nullopt;
  Measured<Tir> measured{.value = result.tir, .u = *result.tir_u, .dof = result.tir_dof};
  measured.graduation = result.graduation;
  measured.u_graduation = result.graduation_u * std::sqrt(2.0);
  measured.in_date = result.in_date;
  return measured;
}

std::optional<Measured<Eccentricity>> eccentricity_measured(const SweepResult& result) {
  if (!result.vector_uncertainty) return std::nullopt;
  const SweepResult::VectorUncertainty& doubt = *result.vector_uncertainty;
  Measured<Eccentricity> measured{.value = result.eccentricity, .u = doubt.u, .dof = doubt.dof};
  measured.graduation = result.graduation;
  measured.in_date = result.in_date;
  if (result.reading_u && result.reading_u->value() > 0) {
    // All of u scales with σ; the graduation's share in σ is its share in u, and more turns average the rest.
    measured.u_graduation = doubt.u * (result.graduation_u / *result.reading_u).value();
    measured.u_scatter = result.scatter_from == ScatterFrom::residuals ? doubt.u : metres(0);
  }
  return measured;
}

}  // namespace pumpwright

#include "engine/seal/film_newton.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace pumpwright::seal {
namespace {

constexpr double close_enough = 1e-11;
constexpr double rounding =
    1e-9;                         // below this a residual that no longer falls is rounding (very fine meshes)
constexpr double roughly = 1e-3;  // for a solution that only starts the next
constexpr int quick_iterations = 25;
constexpr double lost_separation_m = 2e-3;  // wider than any film of a face seal
constexpr double largest_rise_step_k = 25;

}  // namespace

FilmNewton::FilmNewton(const FilmCase& seal, const FilmLiquid& liquid, int cells)
    : seal_(seal),
      liquid_(&liquid),
      pressure_outside_(seal.faces.pressure == PressureSide::outside),
      chamber_pa_(seal.chamber.value.value()),
      atmosphere_pa_(seal.atmosphere.value.value()),
      chamber_k_(kelvin_of(seal.chamber_temperature)),
      speed_rad_s_(seal.speed.value()),

      roughness_m_(seal.asperities ? seal.asperities->roughness.value() : 0),
      balance_(balance_ratio(seal.faces)),
      area_m2_(face_area(seal.faces).value()),
      spring_n_(seal.spring.value()),
      heat_per_volume_j_m3k_(liquid.heat_per_volume_j_m3k(chamber_k_)) {
  lay_mesh(cells);
}

void FilmNewton::lay_mesh(int cells) {
  n_ = static_cast<std::size_t>(cells);
  const double inner_m = seal_.faces.inner_diameter.value() / 2;
  const double outer_m = seal_.faces.outer_diameter.value() / 2;
  mean_radius_m_ = (inner_m + outer_m) / 2;
  width_m_ = outer_m - inner_m;
  const double d_m = width_m_ / static_cast<double>(n_);
  const auto edge_m = [&](std::size_t k) { return inner_m + d_m * static_cast<double>(k); };
  area_from_m2_.assign(n_ + 1, 0);
  for (std::size_t i = 0; i < n_; ++i) {
    centre_m_.push_back(inner_m + d_m * (static_cast<double>(i) + 0.5));
    cell_area_m2_.push_back(2 * pi * centre_m_[i] * d_m);
  }
  for (std::size_t i = n_; i > 0; --i)
    area_from_m2_[i - 1] = area_from_m2_[i] + cell_area_m2_[i - 1];
  for (std::size_t k = 0; k <= n_; ++k) {
    const double a_m = k == 0 ? inner_m : centre_m_[k - 1];
    const double b_m = k == n_ ? outer_m : centre_m_[k];
    segment_middle_m_.push_back((a_m + b_m) / 2);
    segment_log_.push_back(std::log(b_m / a_m));
    const bool inside = k > 0 && k < n_;
    along_w_k_.push_back(inside ? seal_.heat.along_the_face.value() * 2 * pi * edge_m(k) / d_m : 0);
  }
  rise_k_.assign(n_, 0);
  cell_.resize(n_);
  segment_.resize(n_ + 1);
  for (auto* v : {&lower_, &diagonal_, &upper_, &energy_, &step_k_})
    v->assign(n_, 0);
  by_border_.resize(n_);
  for (auto& row : border_by_rise_)
    row.assign(n_, 0);
  eliminated_.resize(n_);
}

void FilmNewton::set_chamber(double pressure_pa) {
  chamber_pa_ = pressure_pa;
}

// Angle that pressure and heat would give at the present part of the coning.
double FilmNewton::coning_target() const {
  double rise_m2k = 0;
  for (std::size_t i = 0; i < n_; ++i)
    rise_m2k += cell_area_m2_[i] * rise_k_[i];
  return coning_part_ *
         (seal_.coning.lapped.value() + seal_.coning.by_pressure.value() * pressure_across_pa() +
          seal_.coning.by_heat.value() * rise_m2k / area_m2_);
}

void FilmNewton::first_guess() {
  std::fill(rise_k_.begin(), rise_k_.end(), 0.0);
  x_[angle] = coning_target();
  const double tilt_m = std::fabs(x_[angle]) * width_m_ / 2;
  x_[separation] = seal_.held_film    ? seal_.held_film->value()
                   : seal_.asperities ? 2 * roughness_m_
                                      : 2 * tilt_m + 1e-6;
  guess_flow();
}

void FilmNewton::guess_flow() {
  evaluate();
  double resistance = 0;
  for (const SegmentState& s : segment_)
    resistance += s.resistance_pa_s_m3;
  x_[flow] = (inner_pa() - outer_pa()) / resistance;
}

bool FilmNewton::solve(int most_iterations, bool warm) {
  iterations_ = 0;
  if (warm && ended_ == Ended::converged) {
    ended_ = iterate(std::min(most_iterations, quick_iterations), close_enough);
    if (ended_ == Ended::converged) return true;
  }
  const bool settles_parallel = seal_.asperities || seal_.held_film;
  coning_part_ = settles_parallel ? 0 : 1;
  first_guess();
  if (settles_parallel) ended_ = iterate(most_iterations, roughly);
  const Unknowns parallel{rise_k_, x_};
  coning_part_ = 1;
  ended_ = iterate(std::min(most_iterations, iterations_ + quick_iterations), close_enough);
  if (ended_ == Ended::not_converged && settles_parallel) follow_coning(parallel, most_iterations);
  return ended_ == Ended::converged;
}

// From parallel faces to the whole coning in parts small enough for the iteration to follow.
void FilmNewton::follow_coning(Unknowns reached, int most_iterations) {
  double done = 0;
  for (double part = 0.25; done < 1 && part > 1e-3 && iterations_ < most_iterations;) {
    rise_k_ = reached.rise_k;
    x_ = reached.x;
    coning_part_ = std::min(1.0, done + part);
    ended_ = iterate(std::min(most_iterations, iterations_ + quick_iterations),
                     coning_part_ < 1 ? roughly : close_enough);
    if (ended_ == Ended::converged) {
      done = coning_part_;
      reached = {rise_k_, x_};
      part *= 1.5;
    } else {
      part /= 2;
    }
  }
  if (done < 1 && ended_ == Ended::converged) ended_ = Ended::not_converged;
}

FilmNewton::Ended FilmNewton::iterate(int most_iterations, double residual) {
  double last = std::numeric_limits<double>::infinity();
  for (;;) {
    evaluate();
    assemble_energy();
    assemble_borders();
    const double now = largest_residual();
    if (now < residual || (now < rounding && now > last / 2)) return Ended::converged;
    last = now;
    if (x_[separation] > lost_separation_m) return Ended::opened;
    if (iterations_ >= most_iterations || !find_step()) return Ended::not_converged;
    ++iterations_;
    take_step(damping());
  }
}

void FilmNewton::evaluate() {
  for (std::size_t i = 0; i < n_; ++i)
    evaluate_cell(i);
  for (std::size_t k = 0; k <= n_; ++k)
    evaluate_segment(k);
}

void FilmNewton::evaluate_cell(std::size_t i) {
  const double r_m = centre_m_[i];
  const double separation_m = x_[separation] + x_[angle] * (r_m - mean_radius_m_);
  CellState& c = cell_[i];
  const WithSlope gap = mean_gap(roughness_m_, separation_m);
  c.gap_m = gap.value;
  c.gap_slope = gap.slope;
  const FilmLiquid::Viscosity mu = liquid_->viscosity(chamber_k_ + rise_k_[i]);
  c.viscosity_pa_s = mu.pa_s;
  c.viscosity_per_k = mu.per_k;
  const double slide_m_s = speed_rad_s_ * r_m;
  const double shear_per_mu = cell_area_m2_[i] * slide_m_s * slide_m_s / c.gap_m;
  c.heat_w = shear_per_mu * mu.pa_s;
  c.heat_per_k = shear_per_mu * mu.per_k;
  c.heat_per_m = -c.heat_w / c.gap_m * c.gap_slope;
  if (!seal_.asperities) return;
  const WithSlope contact = contact_pressure(*seal_.asperities, separation_m);
  c.contact_pa = contact.value;
  c.contact_slope_pa_m = contact.slope;
  const double rub_m3_s = cell_area_m2_[i] * slide_m_s * seal_.asperities->friction;
  c.heat_w += rub_m3_s * contact.value;
  c.heat_per_m += rub_m3_s * contact.slope;
}

double FilmNewton::segment_viscosity(std::size_t k) const {
  if (k == 0) return cell_[0].viscosity_pa_s;
  if (k == n_) return cell_[n_ - 1].viscosity_pa_s;
  return (cell_[k - 1].viscosity_pa_s + cell_[k].viscosity_pa_s) / 2;
}

void FilmNewton::evaluate_segment(std::size_t k) {
  const WithSlope gap =
      mean_gap(roughness_m_, x_[separation] + x_[angle] * (segment_middle_m_[k] - mean_radius_m_));
  SegmentState& s = segment_[k];
  s.per_viscosity = 6 * segment_log_[k] / (pi * gap.value * gap.value * gap.value);
  s.resistance_pa_s_m3 = s.per_viscosity * segment_viscosity(k);
  s.per_m = -3 * s.resistance_pa_s_m3 / gap.value * gap.slope;
}

// Weight of cell k in the temperature at edge k between cells k-1 and k: half, and more towards the upstream
// cell when the flow carries more than conduction evens out.
double FilmNewton::downstream_weight(std::size_t k) const {
  const double carried_w_k = std::fabs(heat_per_volume_j_m3k_ * x_[flow]);
  const double bias = carried_w_k > 2 * along_w_k_[k] ? 1 - 2 * along_w_k_[k] / carried_w_k : 0;
  return x_[flow] >= 0 ? (1 - bias) / 2 : (1 + bias) / 2;
}

// Rise over the chamber of what crosses edge k. What comes in from either side comes at chamber temperature.
double FilmNewton::edge_rise_k(std::size_t k) const {
  if (k == 0) return x_[flow] >= 0 ? 0 : rise_k_[0];
  if (k == n_) return x_[flow] >= 0 ? rise_k_[n_ - 1] : 0;
  const double w = downstream_weight(k);
  return (1 - w) * rise_k_[k - 1] + w * rise_k_[k];
}

// Every cell: to the chamber + along the rings + carried out - carried in - heat made = 0 [W].
void FilmNewton::assemble_energy() {
  const double to_chamber_w_m2k = seal_.heat.to_chamber.value() / area_m2_;
  const double carry_w_k = heat_per_volume_j_m3k_ * x_[flow];
  for (std::size_t i = 0; i < n_; ++i) {
    const CellState& c = cell_[i];
    const double out_w_k = to_chamber_w_m2k * cell_area_m2_[i];
    energy_[i] = out_w_k * rise_k_[i] + carry_w_k * (edge_rise_k(i + 1) - edge_rise_k(i)) - c.heat_w;
    diagonal_[i] = out_w_k - c.heat_per_k;
    lower_[i] = upper_[i] = 0;
    by_border_[i] = {-c.heat_per_m, -c.heat_per_m * (centre_m_[i] - mean_radius_m_),
                     heat_per_volume_j_m3k_ * (edge_rise_k(i + 1) - edge_rise_k(i))};
  }
  for (std::size_t k = 1; k < n_; ++k) {
    const double w = downstream_weight(k);
    const double along_w = along_w_k_[k] * (rise_k_[k - 1] - rise_k_[k]);
    energy_[k - 1] += along_w;
    energy_[k] -= along_w;
    diagonal_[k - 1] += along_w_k_[k] + carry_w_k * (1 - w);
    upper_[k - 1] += -along_w_k_[k] + carry_w_k * w;
    diagonal_[k] += along_w_k_[k] - carry_w_k * w;
    lower_[k] += -along_w_k_[k] - carry_w_k * (1 - w);
  }
  if (x_[flow] >= 0)
    diagonal_[n_ - 1] += carry_w_k;
  else
    diagonal_[0] -= carry_w_k;
}

double FilmNewton::closing_n() const {
  return balance_ * area_m2_ * pressure_across_pa() + spring_n_;
}

double FilmNewton::film_force_n() const {
  double force_n = area_m2_ * (inner_pa() - atmosphere_pa_);
  for (std::size_t k = 0; k < n_; ++k)
    force_n -= x_[flow] * segment_[k].resistance_pa_s_m3 * area_from_m2_[k];
  return force_n;
}

double FilmNewton::contact_force_n() const {
  double force_n = 0;
  for (std::size_t i = 0; i < n_; ++i)
    force_n += cell_[i].contact_pa * cell_area_m2_[i];
  return force_n;
}

double FilmNewton::total_heat_w() const {
  double heat_w = 0;
  for (const CellState& c : cell_)
    heat_w += c.heat_w;
  return heat_w;
}

// film + contact - closing = 0 [N], or separation - held = 0 [m].
void FilmNewton::assemble_force() {
  auto& row = corner_[separation];
  auto& by_rise = border_by_rise_[separation];
  row = {};
  std::fill(by_rise.begin(), by_rise.end(), 0.0);
  if (seal_.held_film) {
    border_residual_[separation] = x_[separation] - seal_.held_film->value();
    border_scale_[separation] = seal_.held_film->value();
    row[separation] = 1;
    return;
  }
  border_residual_[separation] = film_force_n() + contact_force_n() - closing_n();
  border_scale_[separation] =
      std::max({std::fabs(closing_n()), area_m2_ * std::fabs(pressure_across_pa()), 1e-3});
  for (std::size_t i = 0; i < n_; ++i) {
    const double per_m = cell_[i].contact_slope_pa_m * cell_area_m2_[i];
    row[separation] += per_m;
    row[angle] += per_m * (centre_m_[i] - mean_radius_m_);
  }
  for (std::size_t k = 0; k < n_; ++k) {
    const double per_m = -x_[flow] * segment_[k].per_m * area_from_m2_[k];
    row[separation] += per_m;
    row[angle] += per_m * (segment_middle_m_[k] - mean_radius_m_);
    row[flow] -= segment_[k].resistance_pa_s_m3 * area_from_m2_[k];
    const double per_mu = -x_[flow] * segment_[k].per_viscosity * area_from_m2_[k];
    if (k > 0) by_rise[k - 1] += per_mu / 2 * cell_[k - 1].viscosity_per_k;
    by_rise[k] += per_mu * (k > 0 ? 0.5 : 1.0) * cell_[k].viscosity_per_k;
  }
}

void FilmNewton::assemble_borders() {
  assemble_force();

  // angle - what coning makes it = 0 [rad].
  for (std::size_t i = 0; i < n_; ++i)
    border_by_rise_[angle][i] = -coning_part_ * seal_.coning.by_heat.value() * cell_area_m2_[i] / area_m2_;
  border_residual_[angle] = x_[angle] - coning_target();
  border_scale_[angle] = std::max(std::fabs(x_[angle]), length_scale_m() / width_m_);
  corner_[angle] = {0, 1, 0};

  // flow x resistance - pressure difference = 0 [Pa].
  auto& row = corner_[flow];
  auto& by_rise = border_by_rise_[flow];
  row = {};
  std::fill(by_rise.begin(), by_rise.end(), 0.0);
  for (std::size_t k = 0; k <= n_; ++k) {
    const SegmentState& s = segment_[k];
    row[separation] += x_[flow] * s.per_m;
    row[angle] += x_[flow] * s.per_m * (segment_middle_m_[k] - mean_radius_m_);
    row[flow] += s.resistance_pa_s_m3;
    const double per_mu = x_[flow] * s.per_viscosity;
    if (k > 0) by_rise[k - 1] += per_mu * (k < n_ ? 0.5 : 1.0) * cell_[k - 1].viscosity_per_k;
    if (k < n_) by_rise[k] += per_mu * (k > 0 ? 0.5 : 1.0) * cell_[k].viscosity_per_k;
  }
  border_residual_[flow] = x_[flow] * row[flow] - (inner_pa() - outer_pa());
  border_scale_[flow] = std::max(std::fabs(pressure_across_pa()), 1.0);
}

double FilmNewton::largest_residual() const {
  double largest = 0;
  for (std::size_t b = 0; b < borders; ++b)
    largest = std::max(largest, std::fabs(border_residual_[b]) / border_scale_[b]);
  const double cell_heat_w = std::max(total_heat_w() / static_cast<double>(n_), 1e-9);
  for (const double e : energy_)
    largest = std::max(largest, std::fabs(e) / cell_heat_w);
  return std::isfinite(largest) ? largest : 1e300;
}

// Newton's step for all unknowns. False when the system is singular.
bool FilmNewton::find_step() {
  if (!eliminate_temperatures() || !solve_borders()) return false;
  for (std::size_t i = 0; i < n_; ++i) {
    step_k_[i] = eliminated_[i][0];
    for (std::size_t b = 0; b < borders; ++b)
      step_k_[i] -= eliminated_[i][b + 1] * step_[b];
    if (!std::isfinite(step_k_[i])) return false;
  }
  return true;
}

// Solves the tridiagonal part (Thomas) for the energy's right-hand side, column 0 of `eliminated_`, and for
// the columns of the borders.
bool FilmNewton::eliminate_temperatures() {
  for (std::size_t i = 0; i < n_; ++i) {
    auto& right = eliminated_[i];
    right = {-energy_[i], by_border_[i][0], by_border_[i][1], by_border_[i][2]};
    if (i > 0) {
      const double factor = lower_[i] / diagonal_[i - 1];
      diagonal_[i] -= factor * upper_[i - 1];
      for (std::size_t c = 0; c <= borders; ++c)
        right[c] -= factor * eliminated_[i - 1][c];
    }
    if (diagonal_[i] == 0 || !std::isfinite(diagonal_[i])) return false;
  }
  for (std::size_t i = n_; i > 0; --i)
    for (std::size_t c = 0; c <= borders; ++c) {
      const double after = i < n_ ? upper_[i - 1] * eliminated_[i][c] : 0;
      eliminated_[i - 1][c] = (eliminated_[i - 1][c] - after) / diagonal_[i - 1];
    }
  return true;
}

// What the elimination leaves of the borders, rows over their scale and columns in their unit, with the
// right-hand side as last column.
FilmNewton::BorderSystem FilmNewton::reduced_borders(const BorderRow& unit) const {
  BorderSystem m{};
  for (std::size_t b = 0; b < borders; ++b) {
    std::array<double, borders + 1> sum{};
    for (std::size_t i = 0; i < n_; ++i)
      for (std::size_t c = 0; c <= borders; ++c)
        sum[c] += border_by_rise_[b][i] * eliminated_[i][c];
    for (std::size_t c = 0; c < borders; ++c)
      m[b][c] = (corner_[b][c] - sum[c + 1]) * unit[c] / border_scale_[b];
    m[b][borders] = (-border_residual_[b] - sum[0]) / border_scale_[b];
  }
  return m;
}

// Gauss with pivoting.
bool FilmNewton::solve_borders() {
  const BorderRow unit{length_scale_m(), length_scale_m() / width_m_, std::max(std::fabs(x_[flow]), 1e-12)};
  BorderSystem m = reduced_borders(unit);
  for (std::size_t c = 0; c < borders; ++c) {
    std::size_t best = c;
    for (std::size_t r = c + 1; r < borders; ++r)
      if (std::fabs(m[r][c]) > std::fabs(m[best][c])) best = r;
    std::swap(m[c], m[best]);
    if (m[c][c] == 0 || !std::isfinite(m[c][c])) return false;
    for (std::size_t r = c + 1; r < borders; ++r) {
      const double factor = m[r][c] / m[c][c];
      for (std::size_t j = c; j <= borders; ++j)
        m[r][j] -= factor * m[c][j];
    }
  }
  for (std::size_t r = borders; r > 0; --r) {
    double right = m[r - 1][borders];
    for (std::size_t j = r; j < borders; ++j)
      right -= m[r - 1][j] * step_[j] / unit[j];
    step_[r - 1] = right / m[r - 1][r - 1] * unit[r - 1];
  }
  return true;
}

double FilmNewton::length_scale_m() const {
  return std::max({roughness_m_, 0.3 * x_[separation], 1e-9});
}

// Part of the Newton step that keeps the gap's and the temperatures' change within what the linearisation can
// describe, and smooth faces apart.
double FilmNewton::damping() const {
  double part = 1;
  const double tilt_m = std::fabs(step_[angle]) * width_m_ / 2;
  const double move_m = std::fabs(step_[separation]) + tilt_m;
  if (move_m > length_scale_m()) part = length_scale_m() / move_m;
  for (const double step_k : step_k_)
    if (std::fabs(step_k) * part > largest_rise_step_k) part = largest_rise_step_k / std::fabs(step_k);
  if (seal_.asperities) return part;
  const double now_m = x_[separation] - std::fabs(x_[angle]) * width_m_ / 2;
  while (part > 1e-6) {
    const double then_m =
        x_[separation] + part * step_[separation] - std::fabs(x_[angle] + part * step_[angle]) * width_m_ / 2;
    if (then_m > 0.3 * now_m) break;
    part /= 2;
  }
  return part;
}

void FilmNewton::take_step(double part) {
  for (std::size_t b = 0; b < borders; ++b)
    x_[b] += part * step_[b];
  for (std::size_t i = 0; i < n_; ++i)
    rise_k_[i] += part * step_k_[i];
}

double FilmNewton::hottest_k() const {
  return chamber_k_ + *std::max_element(rise_k_.begin(), rise_k_.end());
}

void FilmNewton::write_profile(FilmSolution& s) const {
  double p_pa = inner_pa();
  double boiling_m2 = 0;
  for (std::size_t i = 0; i < n_; ++i) {
    p_pa -= x_[flow] * segment_[i].resistance_pa_s_m3;
    const double t_k = chamber_k_ + rise_k_[i];
    const bool boils = p_pa <= liquid_->saturation_pa(t_k);
    if (boils) boiling_m2 += cell_area_m2_[i];
    s.profile.push_back({metres(centre_m_[i]),
                         {pascals(p_pa)},
                         kelvin(t_k),
                         metres(cell_[i].gap_m),
                         pascals(cell_[i].contact_pa),
                         boils});
  }
  s.boils = boiling_m2 > 0;
  s.boiling_share = boiling_m2 / area_m2_;
}

void FilmNewton::write_forces(FilmSolution& s) const {
  const double closing = closing_n();
  s.closing = newtons(closing);
  s.film_force = newtons(film_force_n());
  s.contact_force = newtons(contact_force_n());
  if (closing > 0) s.contact_share = contact_force_n() / closing;
  if (pressure_across_pa() != 0) s.gradient_factor = film_force_n() / (area_m2_ * pressure_across_pa());
  s.force_residual =
      std::fabs(film_force_n() + contact_force_n() - closing) / std::max(std::fabs(closing), 1e-12);
}

void FilmNewton::write_face(FilmSolution& s) const {
  double torque_nm = 0;
  double gap_m3 = 0;
  double rise_m2k = 0;
  double least_m = cell_[0].gap_m;
  for (std::size_t i = 0; i < n_; ++i) {
    const CellState& c = cell_[i];
    const double rub_pa = seal_.asperities ? seal_.asperities->friction * c.contact_pa : 0;
    const double shear_pa = c.viscosity_pa_s * speed_rad_s_ * centre_m_[i] / c.gap_m;
    torque_nm += cell_area_m2_[i] * centre_m_[i] * (shear_pa + rub_pa);
    gap_m3 += cell_area_m2_[i] * c.gap_m;
    rise_m2k += cell_area_m2_[i] * rise_k_[i];
    least_m = std::min(least_m, c.gap_m);
  }
  const double heat_w = total_heat_w();
  const double out_w = seal_.heat.to_chamber.value() * rise_m2k / area_m2_ +
                       heat_per_volume_j_m3k_ * x_[flow] * (edge_rise_k(n_) - edge_rise_k(0));
  s.friction = newton_metres(torque_nm);
  s.heat = watts(heat_w);
  if (heat_w > 0) s.energy_residual = std::fabs(heat_w - out_w) / heat_w;
  s.mean_film = metres(gap_m3 / area_m2_);
  s.least_film = metres(least_m);
  s.face_mean = kelvin(chamber_k_ + rise_m2k / area_m2_);
  s.face_hottest = kelvin(hottest_k());
}

FilmSolution FilmNewton::solution() const {
  FilmSolution s;
  s.beyond_liquid = beyond_liquid();
  s.converged = ended_ == Ended::converged && !s.beyond_liquid;
  s.opens = opened();
  s.iterations = iterations_;
  s.separation = metres(x_[separation]);
  s.coning = radians(x_[angle]);
  s.leakage = cubic_metres_per_second(pressure_outside_ ? -x_[flow] : x_[flow]);
  write_forces(s);
  write_face(s);
  write_profile(s);
  return s;
}

}  // namespace pumpwright::seal

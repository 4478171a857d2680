#include "engine/assembly/true_remedy.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::true_running {
namespace {

using Complex = std::complex<double>;

constexpr std::size_t sleeve = 1, impeller = 2, bracket = 1;
// Less than this part better is no reason for more work.
constexpr double worth_the_work = 1e-9;

double turn_of(int step, int of) {
  return 2 * pi * step / of;
}

template <class Chain>
void fit_again(Station<Chain>& s, std::size_t part, double by_rad) {
  const double before = s.refitted[part] ? s.refitted[part]->value() : 0;
  s.refitted[part] = wrapped(radians(before + by_rad));
}

// One check over the sleeve's angle: |still + turning e^{iφ}|² over the square of its limit.
struct CheckOverTurn {
  double mean, swing, phase;  // mean + swing cos(φ - phase)

  CheckOverTurn(Complex still, Complex turning, double limit_m) {
    const double l2 = limit_m * limit_m / 4;
    mean = (std::norm(still) + std::norm(turning)) / l2;
    const Complex product = 2.0 * still * std::conj(turning) / l2;
    swing = std::abs(product);
    phase = std::arg(product);
  }
  double at(double phi) const { return mean + swing * std::cos(phi - phase); }
};

// Angles at which the largest of the checks can be least: 0, where one is least, and where two are equal.
std::vector<double> angles_to_try(const std::vector<CheckOverTurn>& checks) {
  std::vector<double> out{0};
  for (std::size_t i = 0; i < checks.size(); ++i) {
    out.push_back(checks[i].phase + pi);
    for (std::size_t j = i + 1; j < checks.size(); ++j) {
      const Complex d =
          std::polar(checks[i].swing, checks[i].phase) - std::polar(checks[j].swing, checks[j].phase);
      const double level = checks[j].mean - checks[i].mean;
      if (std::abs(level) > std::abs(d) || std::abs(d) == 0) continue;
      const double half = std::acos(level / std::abs(d));
      out.push_back(std::arg(d) + half);
      out.push_back(std::arg(d) - half);
    }
  }
  return out;
}

double best_angle(const std::vector<CheckOverTurn>& checks) {
  double best = 0, least = std::numeric_limits<double>::infinity();
  for (const double phi : angles_to_try(checks)) {
    double worst = 0;
    for (const auto& c : checks)
      worst = std::max(worst, c.at(phi));
    if (worst < least * (1 - worth_the_work)) {
      least = worst;
      best = phi;
    }
  }
  return wrapped(radians(best)).value();
}

template <class Chain, class Moves, class Setting>
Remedy<Chain> remedy_of(int work, std::span<const Station<Chain>> stations, const Geometry<Chain>& geometry,
                        const ErrorBelief& errors, const Moves& moves, const Setting& setting) {
  Remedy<Chain> r{.work = work, .setting = setting};
  r.predicted = predict_with(stations, geometry, errors, moves, setting);
  r.worst = worst_ratio<Chain>(r.predicted);
  return r;
}

template <class Chain>
void keep_better(Remedy<Chain>& best, Remedy<Chain> other) {
  if (best.predicted.empty() || other.worst < best.worst * (1 - worth_the_work)) best = std::move(other);
}

void require_valid_moves(const RotatingMoves& m) {
  require_between(m.impeller_keyways, 1, 12, "impeller_keyways", "1 to 12 keyways");
}

void require_valid_moves(const StandingMoves& m) {
  require_between(m.room.value(), 0, 0.1, "room", "a length from 0 to 100 mm");
  require_between(m.bolt_holes, 1, 24, "bolt_holes", "1 to 24 bolt holes");
  require_that(m.shims.size() <= 20, static_cast<double>(m.shims.size()), "shims", "at most 20 shims");
  for (const auto& t : m.shims)
    require_that(t.value() > 0 && t.value() < 0.02, t.value(), "shims", "a thickness above 0, below 20 mm");
  if (!m.shims.empty())
    require_that(m.bolt_circle.value() > 0 && m.bolt_circle.value() < 10, m.bolt_circle.value(),
                 "bolt_circle", "the diameter of the bolt circle");
}

// The best sleeve angle for one keyway of the impeller.
double best_sleeve_angle(std::span<const Station<Rotating>> stations, const RotatingGeometry& geometry,
                         const ErrorBelief& errors, const RotatingMoves& moves, RotatingSetting setting) {
  setting.sleeve_turned = radians(0);
  const auto at_0 = predict_with(stations, geometry, errors, moves, setting);
  setting.sleeve_turned = radians(pi);
  const auto at_180 = predict_with(stations, geometry, errors, moves, setting);
  std::vector<CheckOverTurn> checks;
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const Complex a = at_0[k].vector.si(), b = at_180[k].vector.si();
    if (stations[k].limit)
      checks.emplace_back((a + b) / 2.0, (a - b) / 2.0, stations[k].limit->value.value());
  }
  return best_angle(checks);
}

// How a bracket station answers to a shift and to a tilt of the bracket.
struct BracketArms {
  double shift, tilt_m;
};

BracketArms arms_of(Station<Standing> s, const StandingGeometry& geometry) {
  s.refitted = {};
  const auto row = seen_at(s, geometry);
  const auto faults = faults_of(Standing{});
  BracketArms out{};
  for (std::size_t j = 0; j < row.size(); ++j) {
    if (faults[j].fault == Fault::bracket_off_centre) out.shift = row[j].real();
    if (faults[j].fault == Fault::bracket_out_of_square) out.tilt_m = row[j].real();
  }
  return out;
}

// Lifting the bracket at the bolt leans its axis away from there.
Complex tilt_by(const Shim& shim, const StandingMoves& moves) {
  return -std::polar(shim.thickness.value() / moves.bolt_circle.value(), shim.bolt.angle.value());
}

// A radial check of the bracket: its vector before the shift, and one over its limit.
struct RadialCheck {
  Complex v;
  double weight;
};

double worst_at(const std::vector<RadialCheck>& checks, Complex shift) {
  double worst = 0;
  for (const auto& c : checks)
    worst = std::max(worst, std::abs(c.v + shift) * c.weight);
  return worst;
}

// Least value of a convex function between `low` and `high`, by thirds.
template <class Function>
double least_of(double low, double high, Function f) {
  for (int i = 0; i < 100; ++i) {
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    (f(a) < f(b) ? high : low) = f(a) < f(b) ? b : a;
  }
  return (low + high) / 2;
}

// Least of the largest over the disc of radius `room_m`: convex, so along x of the best along y.
Complex least_of_the_largest(const std::vector<RadialCheck>& checks, double room_m) {
  const auto best_y = [&](double x) {
    const double half = std::sqrt(std::max(0.0, room_m * room_m - x * x));
    return least_of(-half, half, [&](double y) { return worst_at(checks, {x, y}); });
  };
  const double x = least_of(-room_m, room_m, [&](double at) { return worst_at(checks, {at, best_y(at)}); });
  return {x, best_y(x)};
}

// The shift within the room that brings the worst radial check nearest to its mark. One check: towards its
// centre as far as there is room.
Offset<Standing> best_shift(std::span<const Station<Standing>> stations, const StandingGeometry& geometry,
                            std::span<const Predicted<Standing>> predicted, Length room) {
  std::vector<RadialCheck> checks;
  for (std::size_t k = 0; k < stations.size(); ++k)
    if (predicted[k].limit && arms_of(stations[k], geometry).shift != 0)
      checks.push_back({predicted[k].vector.si(), 1 / predicted[k].limit->value.value()});
  const double room_m = room.value();
  if (checks.empty() || room_m == 0) return {};
  if (checks.size() > 1) return Offset<Standing>::from_si(least_of_the_largest(checks, room_m));
  const Complex v = checks.front().v;
  const double size_m = std::abs(v);
  return Offset<Standing>::from_si(size_m <= room_m ? -v : -v / size_m * room_m);
}

// The best of one amount of work, over shims (when `shimmed`) and bolt holes (when `off`).
Remedy<Standing> best_standing(int work, bool shimmed, bool off, std::span<const Station<Standing>> stations,
                               const StandingGeometry& geometry, const ErrorBelief& errors,
                               const StandingMoves& moves) {
  Remedy<Standing> best;
  std::vector<std::optional<Shim>> shims{std::nullopt};
  if (shimmed)
    for (int bolt = 0; bolt < moves.bolt_holes; ++bolt)
      for (const auto& t : moves.shims)
        shims.emplace_back(
            Shim{t, {wrapped(radians(moves.first_bolt.value() + turn_of(bolt, moves.bolt_holes)))}});
  for (int step = 0; step < (off ? moves.bolt_holes : 1); ++step)
    for (const auto& shim : shims) {
      StandingSetting setting{.shim = shim};
      if (off) setting.holes = step;
      const auto before = predict_with(stations, geometry, errors, moves, setting);
      setting.shift = best_shift(stations, geometry, before, moves.room);
      keep_better(best, remedy_of<Standing>(work, stations, geometry, errors, moves, setting));
    }
  return best;
}

}  // namespace

std::vector<Predicted<Rotating>> predict_with(std::span<const Station<Rotating>> stations,
                                              const RotatingGeometry& geometry, const ErrorBelief& errors,
                                              const RotatingMoves& moves, const RotatingSetting& setting) {
  std::vector<Station<Rotating>> then(stations.begin(), stations.end());
  for (auto& s : then) {
    if (setting.impeller_keyway)
      fit_again(s, impeller, turn_of(*setting.impeller_keyway, moves.impeller_keyways));
    if (setting.sleeve_turned) fit_again(s, sleeve, setting.sleeve_turned->value());
  }
  return predict<Rotating>(then, geometry, errors);
}

std::vector<Predicted<Standing>> predict_with(std::span<const Station<Standing>> stations,
                                              const StandingGeometry& geometry, const ErrorBelief& errors,
                                              const StandingMoves& moves, const StandingSetting& setting) {
  std::vector<Station<Standing>> then(stations.begin(), stations.end());
  for (auto& s : then)
    if (setting.holes) fit_again(s, bracket, turn_of(*setting.holes, moves.bolt_holes));
  auto out = predict<Standing>(then, geometry, errors);
  for (std::size_t k = 0; k < then.size(); ++k) {
    const auto arms = arms_of(then[k], geometry);
    Complex move = arms.shift * setting.shift.si();
    if (setting.shim) move += arms.tilt_m * tilt_by(*setting.shim, moves);
    out[k] = moved_by(out[k], Offset<Standing>::from_si(move));
  }
  return out;
}

std::vector<Remedy<Rotating>> remedies(std::span<const Station<Rotating>> stations,
                                       const RotatingGeometry& geometry, const ErrorBelief& errors,
                                       const RotatingMoves& moves) {
  require_valid<Rotating>(stations);
  require_valid_moves(moves);
  std::vector<Remedy<Rotating>> out{
      remedy_of<Rotating>(0, stations, geometry, errors, moves, RotatingSetting{})};
  Remedy<Rotating> impeller_off, sleeve_off;
  for (int step = 0; step < moves.impeller_keyways; ++step) {
    RotatingSetting setting{.impeller_keyway = step};
    keep_better(impeller_off, remedy_of<Rotating>(1, stations, geometry, errors, moves, setting));
    if (!geometry.sleeve_seat) continue;
    setting.sleeve_turned =
        radians(moves.sleeve_turns ? best_sleeve_angle(stations, geometry, errors, moves, setting) : 0);
    keep_better(sleeve_off, remedy_of<Rotating>(2, stations, geometry, errors, moves, setting));
  }
  out.push_back(std::move(impeller_off));
  if (geometry.sleeve_seat) out.push_back(std::move(sleeve_off));
  return out;
}

std::vector<Remedy<Standing>> remedies(std::span<const Station<Standing>> stations,
                                       const StandingGeometry& geometry, const ErrorBelief& errors,
                                       const StandingMoves& moves) {
  require_valid<Standing>(stations);
  require_valid_moves(moves);
  std::vector<Remedy<Standing>> out{
      remedy_of<Standing>(0, stations, geometry, errors, moves, StandingSetting{})};
  if (moves.room.value() > 0)
    out.push_back(best_standing(1, false, false, stations, geometry, errors, moves));
  if (!moves.shims.empty()) out.push_back(best_standing(2, true, false, stations, geometry, errors, moves));
  out.push_back(best_standing(3, !moves.shims.empty(), true, stations, geometry, errors, moves));
  return out;
}

template <class Chain>
std::size_t recommended(std::span<const Remedy<Chain>> list) {
  std::size_t best = 0;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i].worst <= 1) return i;
    if (list[i].worst < list[best].worst * (1 - worth_the_work)) best = i;
  }
  return best;
}

template std::size_t recommended<Rotating>(std::span<const Remedy<Rotating>>);
template std::size_t recommended<Standing>(std::span<const Remedy<Standing>>);

}  // namespace pumpwright::true_running

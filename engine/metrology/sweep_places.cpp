#include "engine/metrology/sweep_places.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::sweep_detail {
namespace {

constexpr double full_turn_rad = 2 * pi;
constexpr double same_place_rad =
    1e-9;  // a place written in degrees and a turn later differs by rounding only
constexpr double reading_limit_m = 1;
constexpr double angle_limit_rad = 1e6 * full_turn_rad;

[[noreturn]] void refuse(const std::string& field, const std::string& value, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

double degrees_from(double angle_rad) {
  return angle_rad * 180 / pi;
}

void check_readings(std::span<const SweepReading> readings) {
  if (readings.size() < 3) {
    refuse("sweep", fmt::format("{} readings", readings.size()),
           "readings at three different places or more");
  }
  if (readings.size() > readings_max) {
    refuse("sweep", fmt::format("{} readings", readings.size()),
           fmt::format("at most {} readings", readings_max));
  }
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const double angle_rad = readings[i].angle.value();
    const double reading_m = readings[i].reading.value();
    if (!(std::fabs(angle_rad) <= angle_limit_rad)) {
      refuse(fmt::format("angle of reading {}", i + 1), fmt::format("{:.9g} deg", degrees_from(angle_rad)),
             "a finite angle; later turns go on past 360 deg");
    }
    if (!(std::fabs(reading_m) <= reading_limit_m)) {
      refuse(fmt::format("reading {}", i + 1), fmt::format("{:.9g} m", reading_m),
             "a finite length of at most 1 m");
    }
  }
}

// +1 when a turned amount leads to rising places.
double turned_sign(const SweepSetup& setup) {
  if (setup.mount == Mount::unknown) {
    refuse("sweep angle", "amount turned, mount not stated",
           "a stated mount (shaft or housing), or the place under the plunger as angle");
  }
  const Turning& t = setup.turning;
  const bool surface_moved = setup.mount == Mount::shaft && t.moved == Moved::shaft;
  double sign = surface_moved ? -1 : 1;
  if (!t.in_rotation) sign = -sign;
  if (!t.marks_rise_with_rotation) sign = -sign;
  return sign;
}

double lever_factor(const Lever& lever) {
  const double limit_rad = pi / 3 * (1 + 1e-12);
  for (const Angle& a : {lever.stylus, lever.reads_true_at}) {
    if (a.value() >= 0 && a.value() <= limit_rad) continue;
    refuse("stylus angle", fmt::format("{:.9g} deg", degrees_of(a)), "an angle from 0 to 60 deg");
  }
  return std::cos(lever.stylus.value()) / std::cos(lever.reads_true_at.value());
}

void check_sag(const SweepSetup& setup) {
  if (!setup.sag) return;
  if (setup.mount != Mount::housing) {
    refuse("bar sag", "base on the standing part, or mount not stated",
           "sag only with the base on the turning shaft (mount housing)");
  }
  const BarSag& sag = *setup.sag;
  const bool good = std::fabs(sag.at_bottom.value()) <= reading_limit_m && std::isfinite(sag.top.value()) &&
                    sag.u.value() >= 0 && std::isfinite(sag.u.value());
  if (!good) refuse("bar sag", fmt::format("{:.9g} m", sag.at_bottom.value()), "a finite length");
}

double sag_m(const BarSag& sag, double theta_rad) {
  return 0.5 * sag.at_bottom.value() * (1 - std::cos(theta_rad - sag.top.value()));
}

struct Sorted {
  double place_rad;
  std::size_t point;
};

[[noreturn]] void refuse_repeat(std::span<const SweepReading> readings, const SurfacePoint& a,
                                const SurfacePoint& b) {
  refuse(
      "sweep angle",
      fmt::format("{:.9g} deg in readings {} and {}", degrees_of(readings[std::max(a.index, b.index)].angle),
                  std::min(a.index, b.index) + 1, std::max(a.index, b.index) + 1),
      "each angle once a turn; a second turn goes on past 360 deg, and only the last reading may repeat the "
      "first");
}

// Numbers the places and refuses a place read twice within one turn.
void number_places(PlacedSweep& sweep, std::vector<Sorted>& sorted, std::span<const SweepReading> readings) {
  const auto by_place = [](const Sorted& a, const Sorted& b) { return a.place_rad < b.place_rad; };
  if (!std::is_sorted(sorted.begin(), sorted.end(), by_place))
    std::sort(sorted.begin(), sorted.end(), by_place);
  sweep.places_rad.reserve(sorted.size());
  // A place just short of a full turn is the one at zero.
  const double wrap_rad = full_turn_rad - same_place_rad + (sorted.empty() ? 0 : sorted.front().place_rad);
  for (const Sorted& s : sorted) {
    const bool wraps = s.place_rad > wrap_rad;
    const bool fresh =
        sweep.places_rad.empty() || (!wraps && s.place_rad - sweep.places_rad.back() > same_place_rad);
    if (fresh) sweep.places_rad.push_back(s.place_rad);
    sweep.points[s.point].place = wraps ? 0 : sweep.places_rad.size() - 1;
  }
  if (sweep.places_rad.size() == sorted.size()) return;
  std::sort(sorted.begin(), sorted.end(), [&](const Sorted& a, const Sorted& b) {
    const SurfacePoint& p = sweep.points[a.point];
    const SurfacePoint& q = sweep.points[b.point];
    return p.place != q.place ? p.place < q.place : p.turn < q.turn;
  });
  for (std::size_t i = 1; i < sorted.size(); ++i) {
    const SurfacePoint& p = sweep.points[sorted[i - 1].point];
    const SurfacePoint& q = sweep.points[sorted[i].point];
    if (p.place == q.place && p.turn == q.turn) refuse_repeat(readings, p, q);
  }
}

std::size_t turn_of(double angle_rad, double first_rad) {
  return static_cast<std::size_t>(std::floor(std::fabs(angle_rad - first_rad) / full_turn_rad + 1e-9));
}

bool same_place(double a_rad, double b_rad) {
  const double apart = wrapped_rad(a_rad - b_rad);
  return std::min(apart, full_turn_rad - apart) <= same_place_rad;
}

}  // namespace

double wrapped_rad(double angle_rad) {
  double wrapped = std::fmod(angle_rad, full_turn_rad);
  if (wrapped < 0) wrapped += full_turn_rad;
  return wrapped >= full_turn_rad ? 0 : wrapped;
}

bool GapSpan::contains(double place_rad) const {
  const double into = wrapped_rad(place_rad - from_rad);
  return into > same_place_rad && into < width_rad - same_place_rad;
}

std::vector<GapSpan> gap_spans(const SweepSetup& setup) {
  std::vector<GapSpan> spans;
  for (const Gap& gap : setup.gaps) {
    const double from_rad = gap.from.value();
    const double to_rad = gap.to.value();
    const double width_rad = wrapped_rad(to_rad - from_rad);
    if (!std::isfinite(from_rad) || !std::isfinite(to_rad) || width_rad <= same_place_rad) {
      refuse("sweep gap",
             fmt::format("{:.9g} deg to {:.9g} deg", degrees_from(from_rad), degrees_from(to_rad)),
             "two different angles, in rising order from the gap's start to its end");
    }
    spans.push_back({wrapped_rad(from_rad), width_rad});
  }
  return spans;
}

PlacedSweep place_readings(std::span<const SweepReading> readings, const SweepSetup& setup) {
  check_readings(readings);
  check_sag(setup);
  const std::vector<GapSpan> gaps = gap_spans(setup);
  const bool turned = setup.written == WrittenAngle::turned;
  const double angle_sign = turned ? turned_sign(setup) : 1;
  const double start_rad = turned ? setup.turning.first_place.value() : 0;
  if (!std::isfinite(start_rad)) refuse("first place under the plunger", "not finite", "a finite angle");

  PlacedSweep sweep;
  sweep.lever_factor = lever_factor(setup.lever);
  const bool bore = setup.axis == Axis::radial && setup.surface == Surface::inside;
  const bool flipped = bore != (setup.plunger_in == PlungerIn::minus);
  const double to_surface = flipped ? -sweep.lever_factor : sweep.lever_factor;

  const double first_rad = readings.front().angle.value();
  const double last_rad = readings.back().angle.value();
  std::size_t last_turn = 0;
  std::vector<Sorted> sorted;
  sorted.reserve(readings.size());
  sweep.points.reserve(readings.size());
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const double angle_rad = readings[i].angle.value();
    const double theta_rad = start_rad + angle_sign * angle_rad;
    const double place_rad = wrapped_rad(theta_rad);
    const bool in_gap =
        std::any_of(gaps.begin(), gaps.end(), [&](const GapSpan& g) { return g.contains(place_rad); });
    if (in_gap) {
      ++sweep.left_out;
      continue;
    }
    std::size_t turn = turn_of(angle_rad, first_rad);
    last_turn = std::max(last_turn, turn);
    // The sheet may close the turn by writing the first angle again.
    if (i + 1 == readings.size() && angle_rad == first_rad) turn = last_turn + 1;
    double reading_m = readings[i].reading.value();
    if (setup.sag) reading_m -= sag_m(*setup.sag, theta_rad);
    const double deviation_m = to_surface * reading_m;
    sweep.largest_m = std::max(sweep.largest_m, std::fabs(deviation_m));
    sorted.push_back({place_rad, sweep.points.size()});
    sweep.points.push_back({.cos_1 = std::cos(theta_rad),
                            .sin_1 = std::sin(theta_rad),
                            .deviation_m = deviation_m,
                            .index = i,
                            .place = 0,
                            .turn = turn});
  }
  if (same_place(first_rad, last_rad)) {
    sweep.closure_m = readings.back().reading.value() - readings.front().reading.value();
  }
  number_places(sweep, sorted, readings);
  if (sweep.places_rad.size() < 3) {
    refuse("sweep",
           fmt::format("{} different places{}", sweep.places_rad.size(),
                       sweep.left_out > 0 ? " outside the gaps" : ""),
           "readings at three different places or more");
  }
  return sweep;
}

}  // namespace pumpwright::sweep_detail

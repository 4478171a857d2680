#include "engine/metrology/face_sweep.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

void validate(const SweepSetup& setup, const FaceGeometry& geometry) {
  if (setup.axis != Axis::face)
    throw BadInput({.field = "sweep axis", .place = "", .value = "radial", .expected = "face"});
  const auto require_positive = [](Length length, const char* field) {
    if (std::isfinite(length.value()) && length.value() > 0) return;
    throw BadInput({.field = field,
                    .place = "",
                    .value = fmt::format("{} m", length.value()),
                    .expected = "a length above zero"});
  };
  require_positive(geometry.radius, "face sweep radius");
  require_positive(geometry.seat_diameter, "seat diameter");
}

FaceTilt tilt_of(const SweepResult& sweep, const FaceGeometry& geometry) {
  const double tangent = (sweep.eccentricity.value / geometry.radius).value();
  FaceTilt tilt;
  tilt.tilt = radians(std::atan(tangent));
  tilt.direction = sweep.high_spot;
  tilt.squareness = geometry.seat_diameter * tangent;
  if (sweep.vector_uncertainty) {
    const double u_tangent = (sweep.vector_uncertainty->u / geometry.radius).value();
    tilt.tilt_u = radians(u_tangent / (1 + tangent * tangent));
    tilt.squareness_u = geometry.seat_diameter * u_tangent;
  }
  return tilt;
}

// The instrument as half the difference of two alike ones sees it: independent errors shrink by √2.
Instrument halved_pair(const Instrument& one) {
  Instrument pair = one;
  const double share = std::sqrt(0.5);
  pair.reading_half_width = one.reading_half_width.value_or(0.5 * one.graduation) * share;
  if (one.mpe) pair.mpe = *one.mpe * share;
  if (one.repeatability) pair.repeatability = *one.repeatability * share;
  if (one.repeatability_dof) pair.repeatability_dof = 2 * *one.repeatability_dof;
  return pair;
}

}  // namespace

FaceResult evaluate_face_sweep(std::span<const SweepReading> readings, const SweepSetup& setup,
                               HeldToward held, const FaceGeometry& geometry, const Instrument* instrument) {
  validate(setup, geometry);
  FaceResult result;
  result.sweep = evaluate_sweep(readings, setup, instrument);
  result.held = held;
  if (held != HeldToward::not_held) result.tilt = tilt_of(result.sweep, geometry);
  return result;
}

FaceResult evaluate_face_sweep(std::span<const TwoIndicatorReading> readings, const SweepSetup& setup,
                               const FaceGeometry& geometry, const Instrument* instrument) {
  validate(setup, geometry);
  std::vector<SweepReading> halves;
  halves.reserve(readings.size());
  FaceResult result;
  for (const TwoIndicatorReading& r : readings) {
    halves.push_back({.angle = r.angle, .reading = 0.5 * (r.first - r.opposite)});
    result.float_at.push_back(0.5 * (r.first + r.opposite));
  }
  if (instrument != nullptr) {
    const Instrument pair = halved_pair(*instrument);
    result.sweep = evaluate_sweep(halves, setup, &pair);
  } else {
    result.sweep = evaluate_sweep(halves, setup);
  }
  const auto [least, most] = std::minmax_element(result.float_at.begin(), result.float_at.end());
  result.end_float = *most - *least;
  const Length start = result.float_at.front();
  for (Length& at : result.float_at)
    at -= start;
  result.tilt = tilt_of(result.sweep, geometry);
  return result;
}

}  // namespace pumpwright

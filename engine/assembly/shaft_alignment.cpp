#include "engine/assembly/shaft_alignment.h"

#include <algorithm>
#include <cmath>

#include "engine/assembly/input_check.h"
#include "engine/metrology/vector_amount.h"

namespace pumpwright::alignment {
namespace {

// What one dial says: coefficient · (at · slope terms): sign_or_radius (offset share, slope share).
struct Equation {
  double of_offset = 0;  // share of the offset at the coupling in the dial's first harmonic
  double of_slope = 0;   // [m] share of the slope
};

Equation equation_of(const Dial& dial, Length coupling) {
  if (dial.on == DialOn::face) return {0, (dial.far_side ? -1 : 1) * dial.radius.value()};
  const double sign = dial.base == BaseOn::fixed_shaft ? 1 : -1;
  return {sign, sign * (dial.at - coupling).value()};
}

// Variance of a + t·b from the covariance rows of the two.
double variance_at(const std::array<double, 16>& c, std::size_t offset, double t) {
  const std::size_t slope = offset + 2;
  return c[offset * 4 + offset] + t * (c[offset * 4 + slope] + c[slope * 4 + offset]) +
         t * t * c[slope * 4 + slope];
}

std::optional<Length> u_at(const ShaftLine& line, std::size_t offset, Length from_coupling) {
  if (!line.covariance) return std::nullopt;
  return metres(std::sqrt(std::max(0.0, variance_at(*line.covariance, offset, from_coupling.value()))));
}

std::array<double, 4> block(const std::array<double, 16>& c, std::size_t from) {
  return {c[from * 4 + from], c[from * 4 + from + 1], c[(from + 1) * 4 + from], c[(from + 1) * 4 + from + 1]};
}

AlignmentVerdict judge(double value, std::optional<double> u, double dof, double limit,
                       const std::string& field, double probability) {
  require_that(std::isfinite(limit) && limit > 0, limit, field, "a tolerance over 0");
  AlignmentVerdict v;
  v.value = value;
  v.limit = limit;
  v.u = u;
  if (!u) {
    v.reason = "uncertainty-not-known";
    return v;
  }
  decision_si::Input in;
  in.upper = limit;
  in.value = value;
  in.u = *u;
  in.dof = dof;
  in.never_negative = true;
  const auto out = decision_si::decide(in, Guarded{probability});
  v.outcome = out.outcome;
  v.reason = code(out.reason);
  v.guard = out.guard;
  v.conformance_probability = out.conformance_probability;
  return v;
}

SweepSetup setup_of(const Dial& dial) {
  SweepSetup setup;
  setup.axis = dial.on == DialOn::rim ? Axis::radial : Axis::face;
  setup.mount = Mount::housing;  // places are clock positions, and the bracket is carried round
  setup.surface = Surface::outside;
  setup.plunger_in = dial.plunger_in;
  setup.sag = dial.sag;
  return setup;
}

}  // namespace

DialResult evaluate_dial(const Dial& dial, const Instrument* instrument, Length tolerance) {
  require_that(dial.on == DialOn::rim || dial.radius.value() > 0, dial.radius.value(), "dials/radius",
               "a radius over 0");
  require_that(dial.on == DialOn::rim || !dial.sag, 0, "dials/sag", "sag with a rim only");
  DialResult result;
  result.sweep = evaluate_sweep(dial.readings, setup_of(dial), instrument);
  require_that(result.sweep.places >= fewest_places, static_cast<double>(result.sweep.places),
               "dials/readings", "readings at four places or more");
  result.disagreement = 2.0 * result.sweep.ront;
  const bool closes = !result.sweep.closure || std::abs(result.sweep.closure->value()) <= tolerance.value();
  result.valid = result.disagreement <= tolerance && closes;
  return result;
}

Length ShaftLine::up_at(Length from_coupling) const {
  return metres(up_m + up_slope * from_coupling.value());
}

Length ShaftLine::right_at(Length from_coupling) const {
  return metres(right_m + right_slope * from_coupling.value());
}

std::optional<Length> ShaftLine::up_u_at(Length from_coupling) const {
  return u_at(*this, 0, from_coupling);
}

std::optional<Length> ShaftLine::right_u_at(Length from_coupling) const {
  return u_at(*this, 1, from_coupling);
}

Length ShaftLine::offset() const {
  return metres(std::hypot(up_m, right_m));
}

Angle ShaftLine::angularity() const {
  return radians(std::atan(std::hypot(up_slope, right_slope)));
}

std::optional<Length> ShaftLine::offset_u() const {
  if (!covariance) return std::nullopt;
  return metres(amount_u(up_m, right_m, block(*covariance, 0), dof));
}

std::optional<Angle> ShaftLine::angularity_u() const {
  if (!covariance) return std::nullopt;
  return radians(amount_u(up_slope, right_slope, block(*covariance, 2), dof));
}

ShaftLine shaft_line(const std::array<Dial, 2>& dials, const std::array<DialResult, 2>& results,
                     Length coupling) {
  const Equation a = equation_of(dials[0], coupling);
  const Equation b = equation_of(dials[1], coupling);
  const double determinant = a.of_offset * b.of_slope - a.of_slope * b.of_offset;
  require_that(std::isfinite(determinant) && std::abs(determinant) > 1e-6, determinant, "dials",
               "two rims in planes that lie apart, or a rim and a face");
  // offset = (b.of_slope·d₁ - a.of_slope·d₂)/det, slope = (a.of_offset·d₂ - b.of_offset·d₁)/det
  const std::array<double, 2> to_offset{b.of_slope / determinant, -a.of_slope / determinant};
  const std::array<double, 2> to_slope{-b.of_offset / determinant, a.of_offset / determinant};
  ShaftLine line;
  std::array<double, 16> covariance{};
  bool known = true;
  for (std::size_t d = 0; d < 2; ++d) {
    const SweepResult& sweep = results[d].sweep;
    const double up = sweep.vector[0].value();
    const double right = sweep.vector[1].value();
    line.up_m += to_offset[d] * up;
    line.right_m += to_offset[d] * right;
    line.up_slope += to_slope[d] * up;
    line.right_slope += to_slope[d] * right;
    if (!sweep.vector_uncertainty) {
      known = false;
      continue;
    }
    line.dof = std::min(line.dof, sweep.vector_uncertainty->dof);
    const std::array<double, 2> share{to_offset[d], to_slope[d]};
    for (std::size_t i = 0; i < 4; ++i)
      for (std::size_t j = 0; j < 4; ++j)
        covariance[i * 4 + j] +=
            share[i / 2] * share[j / 2] * sweep.vector_uncertainty->covariance[(i % 2) * 2 + j % 2];
  }
  if (known) line.covariance = covariance;
  return line;
}

AlignmentVerdict judge_offset(const ShaftLine& line, const AlignmentTolerance& tolerance,
                              double probability) {
  const auto u = line.offset_u();
  return judge(line.offset().value(), u ? std::optional<double>(u->value()) : std::nullopt, line.dof,
               tolerance.offset.value(), "tolerance/offset", probability);
}

AlignmentVerdict judge_angularity(const ShaftLine& line, const AlignmentTolerance& tolerance,
                                  double probability) {
  const auto u = line.angularity_u();
  return judge(line.angularity().value(), u ? std::optional<double>(u->value()) : std::nullopt, line.dof,
               tolerance.angularity.value(), "tolerance/angularity", probability);
}

}  // namespace pumpwright::alignment

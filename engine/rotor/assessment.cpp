#include "engine/rotor/assessment.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::rotor {
namespace {

constexpr int modes_shown = 3;

// One figure (a deflection, a tilt, a load) as each cause gives it, for the range it may have.
struct Causes {
  double per_newton = 0;  // of thrust
  double weight = 0;
  double unbalance = 0;

  Range<double> under(const RadialThrust& thrust) const {
    const double slope = std::fabs(per_newton), w = std::fabs(weight), u = std::fabs(unbalance);
    const double least = slope * thrust.least.value(), most = slope * thrust.most.value();
    return {std::max({0.0, least - w, w - most}), std::hypot(slope * thrust.expected.value(), w) + u,
            most + w + u};
  }
};

// The rotor under each cause by itself.
struct Bending {
  Response unit_thrust, weight, unbalance;
};

Bending bending_of(const RotorMatrices& m, const RotorCase& pump) {
  const Length at = pump.rotor.impeller.at;
  const PointForce unit{at, newtons(1)};
  const PointForce turning{at, unbalance_force(pump.unbalance, pump.speed)};
  return {bent_by(m, {&unit, 1}), bent_by_weight(m), whirled_by(m, {&turning, 1}, pump.speed)};
}

template <class Q>
Range<Q> typed(const Range<double>& r) {
  return {Q::from_value(r.least), Q::from_value(r.expected), Q::from_value(r.most)};
}

Range<Length> deflection_at(const Bending& b, Length at, const RadialThrust& thrust) {
  const auto of = [at](const Response& r) { return point_at(r, at).deflection.value(); };
  return typed<Length>(Causes{of(b.unit_thrust), of(b.weight), of(b.unbalance)}.under(thrust));
}

Range<Angle> tilt_at(const Bending& b, Length at, const RadialThrust& thrust) {
  const auto of = [at](const Response& r) { return point_at(r, at).tilt.value(); };
  return typed<Angle>(Causes{of(b.unit_thrust), of(b.weight), of(b.unbalance)}.under(thrust));
}

std::vector<BentPoint> line_of(const Bending& b, const RadialThrust& thrust) {
  std::vector<BentPoint> line;
  for (std::size_t i = 0; i < b.weight.line.size(); ++i) {
    const double unit_m = b.unit_thrust.line[i].deflection.value();
    const double weight_m = b.weight.line[i].deflection.value();
    const Causes causes{unit_m, weight_m, b.unbalance.line[i].deflection.value()};
    line.push_back({b.weight.line[i].at, metres(unit_m * thrust.expected.value()), metres(weight_m),
                    metres(causes.under(thrust).most)});
  }
  return line;
}

// The same call with the field as the file has it: "bearings/1/static_rating".
template <class Work>
auto of_bearing(std::size_t i, const Work& work) {
  try {
    return work();
  } catch (const BadInput& error) {
    BadInput::What what = error.what_was_wrong();
    if (what.field != "axial_load") what.field = fmt::format("bearings/{}/{}", i, what.field);
    throw BadInput(what);
  }
}

BearingFinding bearing_finding(std::size_t i, const Bending& b, const RotorCase& pump,
                               const RadialThrust& thrust) {
  const RatedBearing& bearing = pump.bearings[i];
  const Causes causes{b.unit_thrust.bearing[i].value(), b.weight.bearing[i].value(),
                      b.unbalance.bearing[i].value()};
  BearingFinding f;
  f.radial = typed<Force>(causes.under(thrust));
  f.axial = i == pump.locating ? pump.axial_load.value_or(newtons(0)) : newtons(0);
  return of_bearing(i, [&] {
    const auto load = [&](Force radial) { return equivalent_load(bearing, radial, f.axial); };
    f.equivalent = {load(f.radial.least), load(f.radial.expected), load(f.radial.most)};
    const auto life = [&](Force p) { return basic_life(bearing, p, pump.speed); };
    f.life = {life(f.equivalent.most), life(f.equivalent.expected), life(f.equivalent.least)};
    return f;
  });
}

Range<Time> system_life_of(const std::array<BearingFinding, 2>& bearings) {
  const auto both = [&](auto which) {
    return system_life(std::array{bearings[0].life.*which, bearings[1].life.*which});
  };
  return {both(&Range<Time>::least), both(&Range<Time>::expected), both(&Range<Time>::most)};
}

bool stiffness_is_known(const Rotor& rotor) {
  return rotor.supports[0].stiffness && rotor.supports[1].stiffness;
}

std::optional<double> nearest_separation(const CriticalSpeeds& critical, Speed speed) {
  std::optional<double> nearest;
  for (const Speed& at : critical.forward) {
    const double distance = std::fabs(at.value() / speed.value() - 1);
    if (!nearest || distance < *nearest) nearest = distance;
  }
  return nearest;
}

bool first_stays_clear(const Rotor& rotor, const RotorCase& pump) {
  const auto forward = critical_speeds(rotor_matrices(rotor), 1).forward;
  return forward.empty() || forward.front() >= (1 + pump.limits.separation) * pump.speed;
}

// Critical speeds rise with the bearings' stiffness, so the least that does is found by halving its
// logarithm.
std::optional<SpringRate> stiffness_needed(const RotorCase& pump) {
  if (stiffness_is_known(pump.rotor) || !first_stays_clear(pump.rotor, pump)) return std::nullopt;
  Rotor rotor = pump.rotor;
  double low = std::log(1e4), high = std::log(1e12);
  while (high - low > 0.01) {
    const double middle = (low + high) / 2;
    for (Support& support : rotor.supports)
      support.stiffness = newtons_per_metre(std::exp(middle));
    (first_stays_clear(rotor, pump) ? high : low) = middle;
  }
  return newtons_per_metre(std::exp(high));
}

RotorVerdict deflection_verdict(const RotorAssessment& a, const RotorLimits& limits) {
  if (a.seal_deflection.most <= limits.deflection)
    return {"deflection", Outcome::pass, RotorReason::inside_at_most};
  if (a.seal_deflection.least > limits.deflection)
    return {"deflection", Outcome::fail, RotorReason::outside_at_least};
  return {"deflection", Outcome::unproven, RotorReason::thrust_straddles_limit};
}

RotorVerdict separation_verdict(const RotorAssessment& a, const RotorCase& pump) {
  if (!stiffness_is_known(pump.rotor))
    return {"separation", Outcome::unproven, RotorReason::stiffness_not_given};
  if (!a.separation || *a.separation >= pump.limits.separation)
    return {"separation", Outcome::pass, RotorReason::far_enough};
  return {"separation", Outcome::fail, RotorReason::too_near};
}

RotorVerdict life_verdict(const RotorAssessment& a, const RotorCase& pump) {
  for (std::size_t i = 0; i < a.bearings.size(); ++i)
    if (!within_life_formula(pump.bearings[i], a.bearings[i].equivalent.most))
      return {"life", Outcome::unproven, RotorReason::beyond_life_formula};
  if (a.system_life.most < *pump.limits.life) return {"life", Outcome::fail, RotorReason::outside_at_least};
  if (a.system_life.least < *pump.limits.life)
    return {"life", Outcome::unproven, RotorReason::thrust_straddles_limit};
  if (!pump.axial_load) return {"life", Outcome::unproven, RotorReason::axial_load_not_given};
  return {"life", Outcome::pass, RotorReason::inside_at_most};
}

void require_valid(const RotorCase& pump) {
  require_valid(pump.rotor);
  require_between(pump.seal_face.value(), 0, length_of(pump.rotor.steps).value(), "seal_face",
                  "a place on the shaft, from its impeller end");
  require_between(pump.speed.value(), 1e-3, 3000, "speed", "a speed over 0 and up to 3000 rad/s (28600 rpm)");
  require_between(pump.limits.deflection.value(), 1e-9, 1, "limits/deflection", "a length over 0");
  require_between(pump.limits.separation, 0, 1, "limits/separation", "a share of the speed from 0 to 1");
  if (pump.limits.life)
    require_that(pump.limits.life->value() > 0, pump.limits.life->value(), "limits/life", "a time over 0");
}

}  // namespace

RotorLimits usual_limits() {
  RotorLimits limits;
  limits.deflection = metres(50e-6);
  limits.deflection_source =
      "50 µm: ISO 9908:1993, 4.10.3 (read, at the outer face of the stuffing box); API 610 from the 8th "
      "edition "
      "on / ISO 13709, at the faces of the seal (0.002 in, read in a public comparison of editions); ISO "
      "5199, "
      "remembered";
  limits.separation = 0.2;
  limits.separation_source =
      "20 % of the speed: API 610 / ISO 13709, lateral critical speeds below 80 % or above 120 % of the "
      "speed "
      "(read in a public restatement)";
  return limits;
}

std::string code(RotorReason reason) {
  switch (reason) {
    case RotorReason::inside_at_most:
      return "inside-at-most";
    case RotorReason::outside_at_least:
      return "outside-at-least";
    case RotorReason::thrust_straddles_limit:
      return "thrust-straddles-limit";
    case RotorReason::far_enough:
      return "far-enough";
    case RotorReason::too_near:
      return "too-near";
    case RotorReason::stiffness_not_given:
      return "stiffness-not-given";
    case RotorReason::axial_load_not_given:
      return "axial-load-not-given";
    case RotorReason::beyond_life_formula:
      return "beyond-life-formula";
  }
  return "";
}

RotorAssessment assess(const RotorCase& pump) {
  require_valid(pump);
  RotorAssessment a;
  a.thrust = radial_thrust(pump.pump);
  a.unbalance_force = unbalance_force(pump.unbalance, pump.speed);
  Rotor rotor = pump.rotor;
  rotor.stations.push_back(pump.seal_face);
  const RotorMatrices m = rotor_matrices(rotor);
  const Bending b = bending_of(m, pump);
  a.line = line_of(b, a.thrust);
  a.seal_deflection = deflection_at(b, pump.seal_face, a.thrust);
  a.seal_tilt = tilt_at(b, pump.seal_face, a.thrust);
  a.impeller_deflection = deflection_at(b, rotor.impeller.at, a.thrust);
  a.impeller_tilt = tilt_at(b, rotor.impeller.at, a.thrust);
  for (std::size_t i = 0; i < a.bearings.size(); ++i)
    a.bearings[i] = bearing_finding(i, b, pump, a.thrust);
  a.system_life = system_life_of(a.bearings);
  a.modes = whirl_modes(m, pump.speed, modes_shown);
  a.critical = critical_speeds(m, modes_shown);
  a.separation = nearest_separation(a.critical, pump.speed);
  a.stiffness_needed = stiffness_needed(pump);
  a.verdicts = {deflection_verdict(a, pump.limits), separation_verdict(a, pump)};
  if (pump.limits.life) a.verdicts.push_back(life_verdict(a, pump));
  return a;
}

}  // namespace pumpwright::rotor

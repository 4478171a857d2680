// Rotors that the rotor's tests and benchmarks share: one even shaft, and an overhung pump shaft, invented.
#pragma once

#include <vector>

#include "engine/rotor/assessment.h"

namespace pumpwright::testing {

// Steel of round numbers; poisson 0.3.
inline rotor::ShaftMaterial given_steel() {
  return {pascals(205e9), kilograms_per_cubic_metre(7850), 0.3, "given"};
}

// One diameter, bearings at both places, no impeller.
inline rotor::Rotor even_shaft(double length_m, double diameter_m, double first_m, double second_m) {
  rotor::Rotor r;
  r.material = given_steel();
  r.steps = {{metres(length_m), metres(diameter_m), metres(0)}};
  r.supports = {rotor::Support{metres(first_m), std::nullopt},
                rotor::Support{metres(second_m), std::nullopt}};
  r.impeller = {metres(0), kilograms(0), kilogram_square_metres(0), kilogram_square_metres(0)};
  return r;
}

// Impeller 90 mm over the first bearing, 150 mm between bearings; steps of 24, 32, 40 and 35 mm.
inline rotor::Rotor overhung_rotor() {
  rotor::Rotor r;
  r.material = given_steel();
  r.steps = {{metres(0.05), metres(0.024), metres(0)},
             {metres(0.06), metres(0.032), metres(0)},
             {metres(0.11), metres(0.040), metres(0)},
             {metres(0.08), metres(0.035), metres(0)}};
  r.supports = {rotor::Support{metres(0.115), newtons_per_metre(1.2e8)},
                rotor::Support{metres(0.265), newtons_per_metre(0.9e8)}};
  r.impeller = {metres(0.025), kilograms(5), kilogram_square_metres(0.025), kilogram_square_metres(0.0135)};
  return r;
}

// The same as a pump at part load, with deep-groove bearings of an invented sheet.
inline rotor::RotorCase overhung_pump() {
  rotor::RotorCase pump;
  pump.rotor = overhung_rotor();
  pump.seal_face = metres(0.07);
  pump.pump = {rotor::single_volute_factor(0.6), metres(40), kilograms_per_cubic_metre(998), metres(0.2),
               metres(0.02)};
  pump.speed = radians_per_second(371.755);
  pump.unbalance = rotor::unbalance_of_grade(kilograms(5), metres_per_second(6.3e-3), pump.speed);
  pump.bearings = {
      rotor::RatedBearing{rotor::BearingKind::deep_groove_ball, newtons(32'500), newtons(19'000), 14.0},
      rotor::RatedBearing{rotor::BearingKind::deep_groove_ball, newtons(27'000), newtons(15'300), 13.9}};
  pump.axial_load = newtons(600);
  pump.limits = rotor::usual_limits();
  return pump;
}

}  // namespace pumpwright::testing

// What residual unbalance pulls at the impeller while it turns.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::rotor {

using Unbalance = units::quantity<units::multiply_typeof_helper<si::mass, si::length>::type>;  // [kg·m]

// U = m G / w: a rotor of mass m balanced to grade G (the product of eccentricity and speed, 6.3 mm/s for
// G 6.3). ISO 21940-11 (ISO 1940-1), read in a public note. Throws BadInput "unbalance/grade" outside 0 to
// 4000 mm/s, "speed" unless over 0.
Unbalance unbalance_of_grade(Mass mass, Velocity grade, Speed speed);

// A mass at a radius, e.g. what the balancing machine says is left. Throws BadInput "unbalance/mass",
// "unbalance/radius" when negative or over 10 kg, 5 m.
Unbalance unbalance_of_mass(Mass mass, Length radius);

Force unbalance_force(Unbalance unbalance, Speed speed);  // U w²

}  // namespace pumpwright::rotor

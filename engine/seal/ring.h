// A seal ring as a short thick-walled cylinder: how well it leads the faces' heat into the liquid around it,
// and how heat and pressure tilt its section so that the faces no longer stand parallel.
#pragma once

#include "engine/fluid/liquid.h"
#include "engine/quantity/quantity.h"
#include "engine/seal/face_geometry.h"

namespace pumpwright::seal {

using HeatTransfer =
    units::quantity<units::divide_typeof_helper<units::divide_typeof_helper<si::power, si::area>::type,
                                                si::temperature>::type>;  // [W/(m² K)]
using HeatConductance =
    units::quantity<units::divide_typeof_helper<si::power, si::temperature>::type>;  // [W/K]
// Cone angle of a face, counted positive when the gap widens with the radius (dh/dr), per cause.
using ConingPerKelvin =
    units::quantity<units::divide_typeof_helper<si::plane_angle, si::temperature>::type>;  // [rad/K]
using ConingPerPressure =
    units::quantity<units::divide_typeof_helper<si::plane_angle, si::pressure>::type>;  // [rad/Pa]

struct Ring {
  Length inner_diameter;      // over 0, below the outer
  Length outer_diameter;      // 5 mm to 500 mm
  Length length;              // along the axis, 1 mm to 200 mm
  Conductivity conductivity;  // 0.1 to 500 W/(m K)
  Pressure modulus;           // E, 0.1 to 1000 GPa
  Expansion expansion;        // 0 to 1e-4 1/K
};

// Throws BadInput "ring/...".
void require_valid(const Ring& ring);

// Heat the ring takes from its face per degree the face stands over the liquid: a fin cooled along the side
// that is wet, dry elsewhere: k A m tanh(m L), m² = h P / (k A) (any textbook of heat transfer; remembered).
HeatConductance heat_conductance(const Ring& ring, HeatTransfer at_side, PressureSide wet);

// Cone angle per degree of face temperature over the liquid, from the same fin: the section turns as a whole
// by alpha r_m times the slope of the straight line that fits the temperature along it best (slope = 12/L³
// times the first moment of the temperature about the middle). Positive: the hot face end grows outward and
// the gap opens at the outside. Holds for rings short against their diameter (ring theory: Timoshenko,
// Strength of Materials II, remembered).
ConingPerKelvin thermal_coning(const Ring& ring, HeatTransfer at_side, PressureSide wet);

// Cone angle per pressure on the wetted side from the face back to `wetted_length` (where the secondary seal
// sits), 0 to the ring's length: the push has its middle off the section's, so the section turns by
// M r_m² / (E I), I = b L³/12 (same source). Negative with the pressure outside: the outside is pressed shut.
// What the axial forces add is left out; give a maker's or a finite-element figure instead where there is
// one.
ConingPerPressure pressure_coning(const Ring& ring, Length wetted_length, PressureSide wet);

// Cooling of a ring that turns in free liquid: Nu = 0.133 Re^(2/3) Pr^(1/3), Re = w D²/(2 nu), on the
// diameter (Becker 1963, remembered; measured to Re 1e5 and used far above it by seal designers: take +-50
// %). A chamber wall close by raises it. speed over 0.
HeatTransfer turning_ring_cooling(const fluid::Liquid& liquid, Temperature t, AbsolutePressure p,
                                  Length diameter, Speed speed);

}  // namespace pumpwright::seal

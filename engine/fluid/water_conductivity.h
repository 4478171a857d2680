// How water and steam conduct heat: IAPWS 2011, the industrial form.
//
// Source: IAPWS R15-11, Release on the IAPWS Formulation 2011 for the Thermal Conductivity of Ordinary Water
// Substance, equations 15 to 25 with Tables 1 to 3 and 6. As the release has it for industrial use, the
// critical enhancement takes heat capacities and compressibility from IF97, its reference compressibility
// from equation 25, and the viscosity without its own critical enhancement.
#pragma once

#include "engine/fluid/if97.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

// Of the state `water` at `t`, 273.15 K to 1173.15 K and up to 1200 kg/m³; BadInput outside.
Conductivity water_conductivity(Temperature t, const WaterState& water);

// The same without the critical enhancement, which is nothing at 25 °C and 2.6 % at 620 K and 20 MPa.
Conductivity water_background_conductivity(Temperature t, Density density);

}  // namespace pumpwright::fluid

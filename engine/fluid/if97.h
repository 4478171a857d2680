// Liquid water and steam: IAPWS-IF97, regions 1 and 2.
//
// Source: IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997: equation 7 with Table
// 2 (region 1), equations 15 to 17 with Tables 10 and 11 (region 2), equation 5 with Table 1 (their boundary
// above 623.15 K). Properties follow from the specific Gibbs energy as in its Tables 3 and 12.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

using SpecificVolume = units::quantity<units::divide_typeof_helper<si::volume, si::mass>::type>;  // [m³/kg]
using SpecificEnergy = units::quantity<units::divide_typeof_helper<si::energy, si::mass>::type>;  // [J/kg]
using DensityByPressure =
    units::quantity<units::divide_typeof_helper<units::divide_typeof_helper<si::mass, si::volume>::type,
                                                si::pressure>::type>;  // [kg/(m³·Pa)]

struct WaterState {
  SpecificVolume specific_volume;
  Density density;
  SpecificEnergy internal_energy;  // zero for the liquid at the triple point, as entropy is
  SpecificEnergy enthalpy;
  HeatCapacity entropy;         // [J/(kg·K)]
  HeatCapacity isobaric;        // c_p
  HeatCapacity isochoric;       // c_v
  Velocity sound;               // speed of sound
  DensityByPressure softening;  // (∂ρ/∂p) at constant temperature
};

inline Temperature if97_liquid_highest() {
  return kelvin(623.15);
}
inline Temperature if97_steam_highest() {
  return kelvin(1073.15);
}
inline constexpr AbsolutePressure if97_highest_pressure{pascals(100e6)};

// Region 1: 273.15 K to 623.15 K, saturation to 100 MPa; BadInput outside.
WaterState liquid_water(Temperature t, AbsolutePressure p);

// Region 2: 273.15 K to 1073.15 K, above 0 Pa up to saturation (to 623.15 K), to `steam_boundary` (to
// 863.15 K) and to 100 MPa; BadInput outside.
WaterState steam(Temperature t, AbsolutePressure p);

// Highest pressure of region 2 between 623.15 K and 863.15 K; BadInput outside.
AbsolutePressure steam_boundary(Temperature t);

}  // namespace pumpwright::fluid

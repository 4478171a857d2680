// Mixtures of ethylene or propylene glycol and water, as heating and cooling loops run on.
//
// Source: Melinder, Properties of Secondary Working Fluids for Indirect Systems, 2nd edition, IIR 2010:
// polynomials of 18 coefficients in mass fraction and temperature for density, heat capacity, conductivity,
// the logarithm of viscosity and the freezing point. The book was not seen; the coefficients were read in
// SecondaryCoolantProps (M. Mitchell and E. Lee, BSD-3-Clause), which implements it and checks itself to 0.1
// %. The fits were made for loops that mostly run below 40 °C: above that they carry more doubt, which nobody
// states.
//
// Vapour pressure. A mixture boils later than water does; by Raoult's law the pressure would be
// `water_mole_fraction` times that of water. Nothing citable was found on how well the law holds here, and a
// boiling margin must not rest on a gain that nobody measured, so `saturation_pressure` is that of pure
// water: never too low. It is known beyond the other properties, from the freezing point to 350 °C, so that a
// margin in degrees can be told at pressures above the atmosphere too.
#pragma once

#include <memory>

#include "engine/fluid/liquid.h"

namespace pumpwright::fluid {

inline constexpr double highest_glycol_fraction = 0.6;

// `mass_fraction` is kg of glycol in one kg of mixture, 0 to 0.6; BadInput outside. From the freezing point
// of the mixture to 100 °C. Pressure is ignored and no higher than 10 MPa, within which it changes density by
// less than 0.5 %.
std::shared_ptr<const Liquid> ethylene_glycol(double mass_fraction);
std::shared_ptr<const Liquid> propylene_glycol(double mass_fraction);

// Moles of water in one mole of mixture: by Raoult's law (ideal solution, glycol without vapour) the factor
// on water's vapour pressure.
double water_mole_fraction_of_ethylene_glycol(double mass_fraction);
double water_mole_fraction_of_propylene_glycol(double mass_fraction);

}  // namespace pumpwright::fluid

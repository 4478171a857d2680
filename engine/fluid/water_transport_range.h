// What the two IAPWS formulations for viscosity and conductivity of water have in common: the units they are
// reduced by and the range they hold in.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

inline constexpr double transport_temperature_unit_k = 647.096;
inline constexpr double transport_density_unit = 322;  // [kg/m³]

// Throws BadInput outside 273.15 K to 1173.15 K and 0 to 1200 kg/m³.
void require_transport_range(Temperature t, Density density);

}  // namespace pumpwright::fluid

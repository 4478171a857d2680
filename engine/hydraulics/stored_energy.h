// What stands ready to be let go when a casing under test gives way: why tests are done with liquid.
//
// Liquid: p² V/(2 K) of the gauge pressure (work of compression, linear). Gas: isentropic expansion to the
// atmosphere, p V/(γ - 1) (1 - (pa/p)^((γ-1)/γ)) of the absolute pressure (Thermodynamics; the same form
// stands in ASME PCC-2, remembered). Vessel elasticity is left out of both.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

// BadInput "pressure" below 0, "volume" not over 0, "bulk_modulus" not over 0, "atmosphere".
Energy stored_in_liquid(GaugePressure pressure, Volume volume, Pressure bulk_modulus);
Energy stored_in_gas(GaugePressure pressure, Volume volume, AbsolutePressure atmosphere,
                     double heat_capacity_ratio = 1.4);

}  // namespace pumpwright::hydraulics

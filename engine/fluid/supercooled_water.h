// When water boils below its freezing point, kept liquid by what is dissolved in it: carries the vapour
// pressure of water below the lowest temperature of IF97, where antifreeze is still a liquid.
//
// Source: Murphy and Koop, Quarterly Journal of the Royal Meteorological Society 131 (2005) 1539-1565,
// equation 10 (liquid water, 123 K to 332 K), read in public restatements. It is multiplied by 1 - 3.4e-8 so
// that it meets IF97 at 273.15 K without a step.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

// Pressure at which liquid water boils, 200 K to 647.096 K; BadInput outside. Murphy and Koop below 273.15 K,
// IF97 from there on. Strictly rising.
AbsolutePressure liquid_water_saturation_pressure(Temperature t);

// Its inverse, to 1e-9 of the value.
Temperature liquid_water_saturation_temperature(AbsolutePressure p);

}  // namespace pumpwright::fluid

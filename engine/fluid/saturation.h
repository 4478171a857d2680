// When water boils: IAPWS-IF97, region 4, both ways.
//
// Source: IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997, equations 30 and 31.
// Both are solutions of one and the same quadratic equation (29), so the second inverts the first to
// rounding.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

// Lowest temperature of IF97, and the critical point, above which there is no liquid.
inline Temperature water_lowest() {
  return kelvin(273.15);
}
inline Temperature water_critical_point() {
  return kelvin(647.096);
}

// Pressure at which water boils [Pa], 273.15 K to 647.096 K; BadInput outside.
AbsolutePressure water_saturation_pressure(Temperature t);

// Temperature at which it boils [K], 611.213 Pa to 22.064 MPa; BadInput outside.
Temperature water_saturation_temperature(AbsolutePressure p);

}  // namespace pumpwright::fluid

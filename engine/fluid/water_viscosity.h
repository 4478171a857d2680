// How thick water and steam are: IAPWS 2008, the industrial form.
//
// Source: IAPWS R12-08, Release on the IAPWS Formulation 2008 for the Viscosity of Ordinary Water Substance,
// equations 10 to 12 with Tables 1 and 2. Left out, as the release allows for industrial use: the critical
// enhancement, which matters only within some kelvins of the critical point (9 % at most at 647.35 K).
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

// 273.15 K to 1173.15 K and up to 1200 kg/m³ (zero: the dilute gas); BadInput outside.
Viscosity water_viscosity(Temperature t, Density density);

}  // namespace pumpwright::fluid

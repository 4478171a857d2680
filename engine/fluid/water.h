// Water as a liquid: IAPWS-IF97 with the IAPWS formulations for viscosity and conductivity.
#pragma once

#include <memory>

#include "engine/fluid/liquid.h"

namespace pumpwright::fluid {

// 0 °C to 350 °C (273.15 K to 623.15 K), from saturation to 100 MPa. All properties depend on pressure.
std::shared_ptr<const Liquid> water();

}  // namespace pumpwright::fluid

// A liquid a shop knows from a sheet: some vapour pressures, two viscosities, a density.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/fluid/vapour_pressure_curve.h"
#include "engine/fluid/viscosity_curve.h"

namespace pumpwright::fluid {

struct DensityPoint {
  Temperature t;
  Density density;
};

struct UserLiquid {
  std::string name;                                  // not empty
  std::string source;                                // the sheet it was read in; not empty
  std::vector<VapourPressurePoint> vapour_pressure;  // two or more, see vapour_pressure_curve.h
  std::array<ViscosityPoint, 2> viscosity;           // see viscosity_curve.h
  std::vector<DensityPoint> density;  // one: taken as constant; two: a straight line; 100 to 20000 kg/m³
  HeatCapacity heat_capacity;         // taken as constant; 100 to 20000 J/(kg·K)
  Conductivity conductivity;          // taken as constant; 0.01 to 100 W/(m·K)
};

// Known where all its points overlap: nothing is extrapolated. Pressure is ignored and no higher than 10 MPa.
// BadInput names the field that is out of range, or says that the points do not overlap.
std::shared_ptr<const Liquid> user_liquid(const UserLiquid& sheet);

}  // namespace pumpwright::fluid

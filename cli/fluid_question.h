// What `pumpwright fluid` was asked, and what it found.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "engine/fluid/liquid.h"
#include "engine/quantity/unit.h"

namespace pumpwright {

struct FluidQuestion {
  std::string name;  // as the command line says it: "water"
  std::shared_ptr<const fluid::Liquid> liquid;
  Temperature at;
  std::optional<AbsolutePressure> pressure;  // when absent: atmospheric, or saturation where that is higher
  System system = System::metric;            // of the answer
};

struct FluidFinding {
  AbsolutePressure pressure;  // that the properties below hold at
  bool pressure_was_given = false;
  AbsolutePressure saturation_pressure;
  std::optional<Temperature> saturation_temperature;  // at `pressure`; absent beyond the liquid's range
  Density density;
  Viscosity viscosity;
  HeatCapacity heat_capacity;
  Conductivity conductivity;
};

// BadInput as the liquid's.
FluidFinding answer(const FluidQuestion& question);

std::string fluid_text(const FluidQuestion& question, const FluidFinding& finding);
std::string fluid_json(const FluidQuestion& question, const FluidFinding& finding);

}  // namespace pumpwright

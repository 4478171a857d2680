#include "cli/fluid_question.h"

#include <algorithm>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr Pressure standard_atmosphere = pascals(101'325);

std::optional<Temperature> boiling_point(const fluid::Liquid& liquid, AbsolutePressure p) {
  try {
    return liquid.saturation_temperature(p);
  } catch (const BadInput&) {  // beyond the range in which the liquid is known
    return std::nullopt;
  }
}

}  // namespace

FluidFinding answer(const FluidQuestion& q) {
  const fluid::Liquid& liquid = *q.liquid;
  FluidFinding f;
  f.saturation_pressure = liquid.saturation_pressure(q.at);
  f.pressure_was_given = q.pressure.has_value();
  f.pressure =
      q.pressure.value_or(AbsolutePressure{std::max(standard_atmosphere, f.saturation_pressure.value)});
  f.density = liquid.density(q.at, f.pressure);
  f.viscosity = liquid.viscosity(q.at, f.pressure);
  f.heat_capacity = liquid.heat_capacity(q.at, f.pressure);
  f.conductivity = liquid.conductivity(q.at, f.pressure);
  f.saturation_temperature = boiling_point(liquid, f.pressure);
  return f;
}

}  // namespace pumpwright

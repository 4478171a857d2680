// What a written value measures. The kind decides which units fit a field, so that "82 degC" is refused where
// a length is wanted, and a torque in "ft-lb" is not taken for an energy in "ft-lb".
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace pumpwright {

// Kinds that share a dimension but not a meaning are kept apart: the three pressures, a temperature and a
// difference of two, torque and energy, speed of a shaft and frequency.
enum class Kind {
  length,                  // [m]
  area,                    // [m²]
  volume,                  // [m³]
  angle,                   // [rad]
  time,                    // [s]
  mass,                    // [kg]
  inertia,                 // [kg·m²], of a mass about an axis
  force,                   // [N]
  torque,                  // [N·m]
  energy,                  // [J]
  power,                   // [W]
  pressure_difference,     // [Pa], a difference, a stress or a modulus of elasticity
  pressure_gauge,          // [Pa] against the atmosphere, not below -101325
  pressure_absolute,       // [Pa] against vacuum, not negative
  temperature,             // [K], a point on the scale, not below 0 K
  temperature_difference,  // [K], a step
  velocity,                // [m/s]
  speed,                   // [rad/s], of a shaft
  frequency,               // [Hz], of a supply or a vibration
  volume_flow,             // [m³/s]
  viscosity,               // [Pa·s], dynamic
  expansion,               // [1/K], linear thermal expansion
  density,                 // [kg/m³]
  heat_capacity,           // [J/(kg·K)], of a mass
  conductivity,            // [W/(m·K)], of heat
  kinematic_viscosity,     // [m²/s]
  spring_rate,             // [N/m]
  pressure_velocity,       // [Pa·m/s], the same as W/m²: pressure of two faces times their sliding speed
  number,                  // a pure number; has no unit
  percent,                 // a fraction of 1, written in per cent: 30 % is 0.3
};

struct KindInfo {
  Kind kind;
  std::string_view name;     // in files and on command lines: "pressure_gauge"
  std::string_view phrase;   // in a sentence: "a gauge pressure"
  std::string_view example;  // two ways to write one: "12 psig or 0.8 bar(g)"
};

// Every kind once, in the order of the enumeration.
std::span<const KindInfo> all_kinds();

const KindInfo& info(Kind kind);

// The kind whose KindInfo::name is exactly `name`; nothing when there is none.
std::optional<Kind> kind_named(std::string_view name);

}  // namespace pumpwright

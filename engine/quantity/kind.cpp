#include "engine/quantity/kind.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cstddef>

namespace pumpwright {
namespace {

constexpr std::array kinds{
    KindInfo{Kind::length, "length", "a length", "7 thou or 0.18 mm"},
    KindInfo{Kind::area, "area", "an area", "12 cm² or 1.9 in²"},
    KindInfo{Kind::volume, "volume", "a volume", "1.5 L or 8 fl oz"},
    KindInfo{Kind::angle, "angle", "an angle", "45° or 0.5 rad"},
    KindInfo{Kind::time, "time", "a time", "20 min or 90 s"},
    KindInfo{Kind::mass, "mass", "a mass", "2.4 kg or 5 lb"},
    KindInfo{Kind::inertia, "inertia", "a moment of inertia", "0.012 kg·m² or 0.28 lb·ft²"},
    KindInfo{Kind::force, "force", "a force", "120 N or 27 lbf"},
    KindInfo{Kind::torque, "torque", "a torque", "60 N·m or 45 ft-lb"},
    KindInfo{Kind::energy, "energy", "an energy", "250 J or 180 ft-lbf"},
    KindInfo{Kind::power, "power", "a power", "7.5 kW or 10 hp"},
    KindInfo{Kind::pressure_difference, "pressure_difference", "a pressure difference or stress",
             "3 psi, 0.2 bar or 205 GPa"},
    KindInfo{Kind::pressure_gauge, "pressure_gauge", "a gauge pressure", "12 psig or 0.8 bar(g)"},
    KindInfo{Kind::pressure_absolute, "pressure_absolute", "an absolute pressure",
             "26.7 psia or 1.84 bar(a)"},
    KindInfo{Kind::temperature, "temperature", "a temperature", "180 °F or 82 °C"},
    KindInfo{Kind::temperature_difference, "temperature_difference", "a temperature difference",
             "10 K or 18 °F"},
    KindInfo{Kind::velocity, "velocity", "a velocity", "2.8 mm/s or 0.11 in/s"},
    KindInfo{Kind::speed, "speed", "a shaft speed", "3550 rpm"},
    KindInfo{Kind::frequency, "frequency", "a frequency", "60 Hz"},
    KindInfo{Kind::volume_flow, "volume_flow", "a flow", "250 gpm or 57 m³/h"},
    KindInfo{Kind::viscosity, "viscosity", "a dynamic viscosity", "1.2 mPa·s or 1.2 cP"},
    KindInfo{Kind::expansion, "expansion", "a coefficient of thermal expansion",
             "11.5 µm/(m·K) or 1.15e-5 1/K"},
    KindInfo{Kind::density, "density", "a density", "998 kg/m³ or 62.3 lb/ft³"},
    KindInfo{Kind::heat_capacity, "heat_capacity", "a specific heat capacity",
             "4.18 kJ/(kg·K) or 1 Btu/(lb·°F)"},
    KindInfo{Kind::conductivity, "conductivity", "a thermal conductivity", "0.6 W/(m·K)"},
    KindInfo{Kind::kinematic_viscosity, "kinematic_viscosity", "a kinematic viscosity", "32 mm²/s or 32 cSt"},
    KindInfo{Kind::spring_rate, "spring_rate", "a spring rate", "8 N/mm or 46 lbf/in"},
    KindInfo{Kind::pressure_velocity, "pressure_velocity", "a pressure times a sliding speed",
             "7 MPa·m/s or 200000 psi·ft/min"},
    KindInfo{Kind::number, "number", "a number without a unit", "12 or 0.85"},
    KindInfo{Kind::percent, "percent", "a percentage", "30 %"},
};

constexpr bool in_order() {
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (static_cast<std::size_t>(kinds[i].kind) != i) return false;
  }
  return true;
}
static_assert(in_order(), "info() indexes the table with the enumerator");

}  // namespace

std::span<const KindInfo> all_kinds() {
  return kinds;
}

const KindInfo& info(Kind kind) {
  assert(static_cast<std::size_t>(kind) < kinds.size());
  return kinds[static_cast<std::size_t>(kind)];
}

std::optional<Kind> kind_named(std::string_view name) {
  const auto* const found =
      std::find_if(kinds.begin(), kinds.end(), [name](const KindInfo& k) { return k.name == name; });
  return found == kinds.end() ? std::nullopt : std::optional(found->kind);
}

}  // namespace pumpwright

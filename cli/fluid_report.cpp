// What `pumpwright fluid` prints, for people and as JSON.
#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/fluid_question.h"
#include "cli/json_values.h"
#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

constexpr int shown_digits = 4;

std::string shown(const AnyQuantity& quantity, System system) {
  const Unit& unit = suitable_unit(quantity.kind(), quantity.si(), system);
  return quantity.kind() == Kind::temperature ? format_decimals(quantity, unit, 1)
                                              : format_significant(quantity, unit, shown_digits);
}

std::string boiling_text(const FluidQuestion& q, const FluidFinding& f) {
  if (f.saturation_temperature) return shown(*f.saturation_temperature, q.system);
  return "outside the range in which it is known";
}

}  // namespace

std::string fluid_text(const FluidQuestion& q, const FluidFinding& f) {
  const auto& liquid = *q.liquid;
  const auto& sources = liquid.sources();
  std::string heading =
      fmt::format("{} at {}, {}", liquid.name(), shown(q.at, q.system), shown(f.pressure, q.system));
  if (!f.pressure_was_given)
    heading +=
        f.pressure.value > f.saturation_pressure.value ? " (the standard atmosphere)" : " (saturation)";
  TextTable table({Align::left, Align::left});
  table.add({"vapour pressure", shown(f.saturation_pressure, q.system)});
  table.add({"boils at this pressure at", boiling_text(q, f)});
  table.add({"density", shown(f.density, q.system)});
  table.add({"viscosity", shown(f.viscosity, q.system)});
  table.add({"heat capacity", shown(f.heat_capacity, q.system)});
  table.add({"conductivity", shown(f.conductivity, q.system)});
  table.add({"known from", fmt::format("{} to {}", shown(liquid.lowest_temperature(), q.system),
                                       shown(liquid.highest_temperature(), q.system))});
  TextTable cited({Align::left, Align::left});
  cited.add({"vapour pressure", sources.saturation});
  cited.add({"density", sources.density});
  cited.add({"viscosity", sources.viscosity});
  cited.add({"heat capacity", sources.heat_capacity});
  cited.add({"conductivity", sources.conductivity});
  return heading + "\n\n" + table.text() + "\n" + cited.text();
}

std::string fluid_json(const FluidQuestion& q, const FluidFinding& f) {
  const auto& liquid = *q.liquid;
  const auto& sources = liquid.sources();
  const OrderedJson json = {
      {"liquid", q.name},
      {"name", liquid.name()},
      {"temperature_K", json_number(kelvin_of(q.at))},
      {"pressure_Pa", json_number(f.pressure.value.value())},
      {"saturation_pressure_Pa", json_number(f.saturation_pressure.value.value())},
      {"saturation_temperature_K",
       f.saturation_temperature ? json_number(kelvin_of(*f.saturation_temperature)) : OrderedJson(nullptr)},
      {"density_kg_m3", json_number(f.density.value())},
      {"viscosity_Pa_s", json_number(f.viscosity.value())},
      {"heat_capacity_J_kgK", json_number(f.heat_capacity.value())},
      {"conductivity_W_mK", json_number(f.conductivity.value())},
      {"lowest_temperature_K", json_number(kelvin_of(liquid.lowest_temperature()))},
      {"highest_temperature_K", json_number(kelvin_of(liquid.highest_temperature()))},
      {"sources",
       {{"saturation", sources.saturation},
        {"density", sources.density},
        {"viscosity", sources.viscosity},
        {"heat_capacity", sources.heat_capacity},
        {"conductivity", sources.conductivity}}}};
  return json_text(json);
}

}  // namespace pumpwright

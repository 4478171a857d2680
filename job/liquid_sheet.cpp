#include "job/liquid_sheet.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "engine/fluid/user_liquid.h"
#include "engine/quantity/bad_input.h"
#include "job/decode.h"
#include "job/plan_json.h"

namespace pumpwright::job {
namespace {

constexpr std::size_t points_max = 100;

std::vector<LiquidPoint> decode_points(const JsonReader& json, std::string_view key, Kind kind) {
  std::vector<LiquidPoint> out;
  for (const auto& point : json.items(points_max)) {
    point.allow_only({"at", key});
    out.push_back({decode_written(point.required("at"), Kind::temperature),
                   decode_positive(point.required(key), kind)});
  }
  return out;
}

nlohmann::json encode_points(const std::vector<LiquidPoint>& points) {
  nlohmann::json out = nlohmann::json::array();
  for (const auto& point : points)
    out.push_back({{"at", encode_written(point.at)}, {"value", encode_written(point.value)}});
  return out;
}

std::vector<LiquidPoint> decode_frozen_points(const JsonReader& at) {
  std::vector<LiquidPoint> out;
  for (const auto& point : at.items(points_max))
    out.push_back({decode_frozen(point.required("at")), decode_frozen(point.required("value"))});
  return out;
}

// ASTM D341 takes two points, neither more nor less.
void want_two(const JsonReader& viscosity) {
  if (viscosity.items(points_max).size() != 2) viscosity.refuse("two points of viscosity");
}

}  // namespace

LiquidSheet decode_liquid_sheet(const JsonReader& json, const std::string& name) {
  json.allow_only({"source", "vapour_pressure", "viscosity", "density", "heat_capacity", "conductivity"});
  LiquidSheet sheet;
  sheet.source = json.required("source").text(256);
  sheet.vapour_pressure =
      decode_points(json.required("vapour_pressure"), "pressure", Kind::pressure_absolute);
  want_two(json.required("viscosity"));
  sheet.viscosity = decode_points(json.required("viscosity"), "kinematic", Kind::kinematic_viscosity);
  sheet.density = decode_points(json.required("density"), "density", Kind::density);
  sheet.heat_capacity = decode_positive(json.required("heat_capacity"), Kind::heat_capacity);
  sheet.conductivity = decode_positive(json.required("conductivity"), Kind::conductivity);
  try {
    liquid_of(sheet, name);
  } catch (const BadInput& e) {
    throw e.at(json.pointer());
  }
  return sheet;
}

nlohmann::json encode_liquid_sheet(const LiquidSheet& s) {
  return {{"source", s.source},
          {"vapour_pressure", encode_points(s.vapour_pressure)},
          {"viscosity", encode_points(s.viscosity)},
          {"density", encode_points(s.density)},
          {"heat_capacity", encode_written(s.heat_capacity)},
          {"conductivity", encode_written(s.conductivity)}};
}

LiquidSheet decode_frozen_liquid_sheet(const JsonReader& at) {
  at.allow_only({"source", "vapour_pressure", "viscosity", "density", "heat_capacity", "conductivity"});
  want_two(at.required("viscosity"));
  LiquidSheet s;
  s.source = at.required("source").text(256);
  s.vapour_pressure = decode_frozen_points(at.required("vapour_pressure"));
  s.viscosity = decode_frozen_points(at.required("viscosity"));
  s.density = decode_frozen_points(at.required("density"));
  s.heat_capacity = decode_frozen(at.required("heat_capacity"));
  s.conductivity = decode_frozen(at.required("conductivity"));
  return s;
}

std::shared_ptr<const fluid::Liquid> liquid_of(const LiquidSheet& sheet, const std::string& name) {
  fluid::UserLiquid user;
  user.name = name;
  user.source = sheet.source;
  for (const auto& p : sheet.vapour_pressure)
    user.vapour_pressure.push_back({kelvin(p.at.si), AbsolutePressure{pascals(p.value.si)}});
  for (std::size_t i = 0; i < user.viscosity.size(); ++i)
    user.viscosity[i] = {kelvin(sheet.viscosity.at(i).at.si),
                         square_metres_per_second(sheet.viscosity.at(i).value.si)};
  for (const auto& p : sheet.density)
    user.density.push_back({kelvin(p.at.si), kilograms_per_cubic_metre(p.value.si)});
  user.heat_capacity = joules_per_kilogram_kelvin(sheet.heat_capacity.si);
  user.conductivity = watts_per_metre_kelvin(sheet.conductivity.si);
  return fluid::user_liquid(user);
}

}  // namespace pumpwright::job

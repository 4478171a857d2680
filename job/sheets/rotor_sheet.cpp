#include "job/sheets/rotor_sheet.h"

#include <optional>

#include "job/json_quantity.h"
#include "job/json_reader.h"

namespace pumpwright::job {
namespace {

constexpr std::size_t steps_max = 60;
constexpr std::size_t others_max = 20;

template <class Q>
Q read(const JsonReader& json) {
  return decode_written(json, KindOf<Q>::kind).quantity().template as<Q>();
}

template <class Q>
std::optional<Q> read_optional(const JsonReader& json, std::string_view key) {
  const auto found = json.optional(key);
  return found ? std::optional(read<Q>(*found)) : std::nullopt;
}

rotor::ShaftMaterial read_material(const JsonReader& json) {
  if (json.is_string()) {
    try {
      return rotor::shaft_material(json.text(), json.field());
    } catch (const BadInput& error) {
      throw error.at(json.pointer());
    }
  }
  json.allow_only({"modulus", "density", "poisson", "source"});
  return {read<Pressure>(json.required("modulus")), read<Density>(json.required("density")),
          json.required("poisson").number(), json.required("source").text(200)};
}

std::vector<rotor::ShaftStep> read_steps(const JsonReader& json) {
  std::vector<rotor::ShaftStep> steps;
  for (const JsonReader& step : json.items(steps_max)) {
    step.allow_only({"length", "diameter", "bore"});
    steps.push_back({read<Length>(step.required("length")), read<Length>(step.required("diameter")),
                     read_optional<Length>(step, "bore").value_or(metres(0))});
  }
  return steps;
}

struct Inertias {
  Inertia polar, diametral;
};

// Both, or neither.
std::optional<Inertias> read_inertias(const JsonReader& json) {
  if (!json.optional("polar_inertia") && !json.optional("diametral_inertia")) return std::nullopt;
  return Inertias{read<Inertia>(json.required("polar_inertia")),
                  read<Inertia>(json.required("diametral_inertia"))};
}

void read_impeller(const JsonReader& json, RotorSheet& file) {
  json.allow_only({"at", "mass", "polar_inertia", "diametral_inertia", "outlet_diameter", "outlet_width"});
  rotor::RotorCase& pump = file.pump;
  const auto at = read<Length>(json.required("at"));
  const auto mass = read<Mass>(json.required("mass"));
  pump.pump.outlet_diameter = read<Length>(json.required("outlet_diameter"));
  pump.pump.outlet_width = read<Length>(json.required("outlet_width"));
  const auto inertias = read_inertias(json);
  file.inertia_estimated = !inertias;
  pump.rotor.impeller = inertias
                            ? rotor::Disk{at, mass, inertias->polar, inertias->diametral}
                            : rotor::solid_disk(at, mass, pump.pump.outlet_diameter, pump.pump.outlet_width);
}

std::vector<rotor::Disk> read_others(const JsonReader& json) {
  std::vector<rotor::Disk> others;
  for (const JsonReader& part : json.items(others_max)) {
    part.allow_only({"name", "at", "mass", "polar_inertia", "diametral_inertia"});
    (void)part.required("name").text(80);
    const Inertias inertias = read_inertias(part).value_or(Inertias{});
    others.push_back({read<Length>(part.required("at")), read<Mass>(part.required("mass")), inertias.polar,
                      inertias.diametral});
  }
  return others;
}

void read_bearing(const JsonReader& json, std::size_t i, RotorSheet& file) {
  json.allow_only({"name", "at", "kind", "dynamic_rating", "static_rating", "f0", "stiffness", "locates"});
  file.bearing_names[i] = json.required("name").text(80);
  file.pump.rotor.supports[i] = {read<Length>(json.required("at")),
                                 read_optional<SpringRate>(json, "stiffness")};
  rotor::RatedBearing& bearing = file.pump.bearings[i];
  bearing.kind = rotor::bearing_kind(
      json.required("kind").word({"deep-groove-ball", "angular-contact-ball-40", "cylindrical-roller"}),
      "kind");
  bearing.dynamic_rating = read<Force>(json.required("dynamic_rating"));
  bearing.static_rating = read_optional<Force>(json, "static_rating");
  if (const auto f0 = json.optional("f0")) bearing.f0 = f0->number();
  const auto locates = json.optional("locates");
  if (locates && locates->boolean()) file.pump.locating = i;
}

void read_bearings(const JsonReader& json, RotorSheet& file) {
  const auto bearings = json.items(2);
  if (bearings.size() != 2) json.refuse("two bearings, the one nearer the impeller end first");
  for (std::size_t i = 0; i < bearings.size(); ++i)
    read_bearing(bearings[i], i, file);
  const auto first = bearings[0].optional("locates"), second = bearings[1].optional("locates");
  if (first && second && first->boolean() == second->boolean())
    json.refuse("one bearing that locates the shaft, not both and not neither");
  if (first && !first->boolean()) file.pump.locating = 1;
  if (second && !second->boolean()) file.pump.locating = 0;
}

rotor::RadialFactor read_factor(const JsonReader& json) {
  json.allow_only({"least", "expected", "most", "source"});
  rotor::RadialFactor factor;
  factor.least = json.required("least").number();
  factor.most = json.required("most").number();
  const auto expected = json.optional("expected");
  factor.expected = expected ? expected->number() : (factor.least + factor.most) / 2;
  factor.source = json.required("source").text(200);
  return factor;
}

void read_operating_point(const JsonReader& json, RotorSheet& file) {
  json.allow_only({"flow_ratio", "head", "density", "radial_factor"});
  file.flow_ratio = json.required("flow_ratio").number();
  file.pump.pump.head = read<Length>(json.required("head"));
  file.pump.pump.density = read<Density>(json.required("density"));
  const auto factor = json.optional("radial_factor");
  file.pump.pump.factor = factor ? read_factor(*factor) : rotor::single_volute_factor(file.flow_ratio);
}

rotor::Unbalance read_unbalance(const JsonReader& json, const rotor::RotorCase& pump) {
  json.allow_only({"grade", "mass", "radius"});
  const auto grade = json.optional("grade");
  if (grade.has_value() == (json.optional("mass") || json.optional("radius")))
    json.refuse("either grade, or mass and radius");
  if (grade) return rotor::unbalance_of_grade(pump.rotor.impeller.mass, read<Velocity>(*grade), pump.speed);
  return rotor::unbalance_of_mass(read<Mass>(json.required("mass")), read<Length>(json.required("radius")));
}

// What a file sets is its own, with the source it states; what it leaves out stays as usual.
void read_limits(const JsonReader& json, rotor::RotorLimits& limits) {
  json.allow_only({"deflection", "separation", "life", "source"});
  const auto source = json.required("source").text(200);
  if (const auto deflection = read_optional<Length>(json, "deflection")) {
    limits.deflection = *deflection;
    limits.deflection_source = source;
  }
  if (const auto separation = json.optional("separation")) {
    limits.separation = decode_written(*separation, Kind::percent).si;
    limits.separation_source = source;
  }
  if (const auto life = read_optional<Time>(json, "life")) {
    limits.life = life;
    limits.life_source = source;
  }
}

void read_header(const JsonReader& json) {
  json.allow_only({"format", "version", "name", "note", "speed", "material", "shaft", "bearings", "impeller",
                   "others", "seal_face", "operating_point", "unbalance", "axial_load", "limits"});
  (void)json.required("format").word({"pumpwright-rotor"});
  (void)json.required("version").integer(rotor_file_version, rotor_file_version);
  if (const auto note = json.optional("note")) (void)note->text();
}

}  // namespace

RotorSheet decode_rotor(const JsonReader& json) {
  read_header(json);
  RotorSheet file;
  rotor::RotorCase& pump = file.pump;
  file.name = json.required("name").text(200);
  pump.speed = read<Speed>(json.required("speed"));
  pump.rotor.material = read_material(json.required("material"));
  pump.rotor.steps = read_steps(json.required("shaft"));
  read_bearings(json.required("bearings"), file);
  read_impeller(json.required("impeller"), file);
  if (const auto others = json.optional("others")) pump.rotor.others = read_others(*others);
  file.seal_face = decode_written(json.required("seal_face"), Kind::length);
  pump.seal_face = metres(file.seal_face.si);
  read_operating_point(json.required("operating_point"), file);
  pump.unbalance = read_unbalance(json.required("unbalance"), pump);
  pump.axial_load = read_optional<Force>(json, "axial_load");
  pump.limits = rotor::usual_limits();
  if (const auto limits = json.optional("limits")) read_limits(*limits, pump.limits);
  return file;
}

}  // namespace pumpwright::job

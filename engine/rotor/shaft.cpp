#include "engine/rotor/shaft.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::rotor {
namespace {

constexpr std::size_t most_steps = 60;
constexpr double most_bore_ratio = 0.95;

struct NamedMaterial {
  const char* name;
  double modulus_pa, density_kg_m3, poisson;
  const char* source;
};

constexpr std::array materials{
    NamedMaterial{"carbon-steel", 200e9, 7870, 0.29,
                  "carbon steel 1020 to 1045, public table of ferrous metals (AS 1442), read"},
    NamedMaterial{"chromium-molybdenum-steel", 200e9, 7850, 0.29,
                  "AISI 4130, public table of ferrous metals, read"},
    NamedMaterial{"austenitic-stainless-steel", 193e9, 8000, 0.29,
                  "18-8 stainless steel: modulus read in a mechanics textbook's table of materials (2017), "
                  "density and Poisson's ratio remembered"},
    NamedMaterial{"martensitic-stainless-steel", 190e9, 7800, 0.28,
                  "UNS S41045, public table of material properties, read"},
};

}  // namespace

ShaftMaterial shaft_material(const std::string& name, const std::string& field) {
  for (const NamedMaterial& known : materials)
    if (name == known.name)
      return {pascals(known.modulus_pa), kilograms_per_cubic_metre(known.density_kg_m3), known.poisson,
              known.source};
  throw BadInput({field, "", name, fmt::format("one of {}", fmt::join(shaft_material_names(), ", "))});
}

const std::vector<std::string>& shaft_material_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    all.reserve(std::size(materials));
    for (const NamedMaterial& known : materials)
      all.emplace_back(known.name);
    return all;
  }();
  return names;
}

double round_shear_coefficient(double bore_ratio, double poisson) {
  const double m2 = bore_ratio * bore_ratio;
  const double square = (1 + m2) * (1 + m2);
  return 6 * (1 + poisson) * square / ((7 + 6 * poisson) * square + (20 + 12 * poisson) * m2);
}

BeamSection beam_section(const ShaftStep& step, double poisson) {
  const double d_m = step.diameter.value();
  const double bore_m = step.bore.value();
  const double d2 = d_m * d_m;
  const double b2 = bore_m * bore_m;
  return {pi / 4 * (d2 - b2), pi / 64 * (d2 * d2 - b2 * b2), round_shear_coefficient(bore_m / d_m, poisson)};
}

void require_valid(const ShaftMaterial& material) {
  require_between(material.modulus.value(), 1e9, 1e12, "material/modulus",
                  "a modulus from 1 GPa to 1000 GPa");
  require_between(material.density.value(), 500, 30'000, "material/density",
                  "a density from 500 kg/m³ to 30000 kg/m³");
  require_between(material.poisson, 0, 0.49, "material/poisson", "a number from 0 to 0.49");
}

void require_valid(const std::vector<ShaftStep>& steps) {
  if (steps.empty() || steps.size() > most_steps)
    throw BadInput(
        {"shaft", "", fmt::format("{} steps", steps.size()), fmt::format("1 to {} steps", most_steps)});
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto field = [i](const char* name) { return fmt::format("shaft/{}/{}", i, name); };
    require_between(steps[i].length.value(), 1e-4, 5, field("length"), "a length from 0.1 mm to 5 m");
    require_between(steps[i].diameter.value(), 1e-3, 1, field("diameter"), "a diameter from 1 mm to 1 m");
    require_between(steps[i].bore.value(), 0, most_bore_ratio * steps[i].diameter.value(), field("bore"),
                    "a bore from 0 to 0.95 of the diameter");
  }
}

Length length_of(const std::vector<ShaftStep>& steps) {
  Length total = metres(0);
  for (const ShaftStep& step : steps)
    total += step.length;
  return total;
}

}  // namespace pumpwright::rotor

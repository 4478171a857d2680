#include "engine/fluid/liquid_by_name.h"

#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "engine/fluid/glycol.h"
#include "engine/fluid/sea_water.h"
#include "engine/fluid/water.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::fluid {
namespace {

enum class Content { none, salt, glycol };

using Make = std::shared_ptr<const Liquid> (*)(double);

struct Known {
  std::string_view name;
  Content content;
  Make make;
};

constexpr std::array known{
    Known{"water", Content::none, [](double) { return water(); }},
    Known{"sea-water", Content::salt, sea_water},
    Known{"ethylene-glycol", Content::glycol, ethylene_glycol},
    Known{"propylene-glycol", Content::glycol, propylene_glycol},
};

[[noreturn]] void refuse(const std::string& field, const std::string& value, const std::string& expected) {
  throw BadInput({.field = field, .place = "", .value = value, .expected = expected});
}

const Known& named(const std::string& name) {
  for (const Known& liquid : known)
    if (liquid.name == name) return liquid;
  refuse("liquid", name, fmt::format("one of {}", fmt::join(liquid_names(), ", ")));
}

void refuse_what_it_has_not(const Known& liquid, const LiquidName& asked) {
  if (asked.mass_fraction && liquid.content != Content::glycol)
    refuse("mass fraction of glycol", fmt::format("{:.6g}", *asked.mass_fraction),
           fmt::format("nothing, since {} holds no glycol", liquid.name));
  if (asked.salinity && liquid.content != Content::salt)
    refuse("salinity", fmt::format("{:.6g}", *asked.salinity),
           fmt::format("nothing, unless with sea-water; {} holds no salt", liquid.name));
}

}  // namespace

std::vector<std::string> liquid_names() {
  std::vector<std::string> names;
  names.reserve(known.size());
  for (const Known& liquid : known)
    names.emplace_back(liquid.name);
  return names;
}

std::shared_ptr<const Liquid> liquid_by_name(const LiquidName& asked) {
  const Known& liquid = named(asked.name);
  refuse_what_it_has_not(liquid, asked);
  if (liquid.content == Content::salt) return liquid.make(asked.salinity.value_or(standard_salinity));
  if (liquid.content == Content::none) return liquid.make(0);
  if (!asked.mass_fraction)
    refuse("mass fraction of glycol", "nothing",
           fmt::format("kg of glycol in one kg of mixture, 0 to {:g}", highest_glycol_fraction));
  return liquid.make(*asked.mass_fraction);
}

}  // namespace pumpwright::fluid

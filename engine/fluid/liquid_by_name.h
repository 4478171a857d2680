// The liquids the program knows without being told: what they are called, and what must be said besides.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fluid/liquid.h"

namespace pumpwright::fluid {

struct LiquidName {
  std::string name;  // one of `liquid_names`
  std::optional<double> mass_fraction =
      {};                               // of glycol, 0 to 0.6; needed by both glycols, refused by the others
  std::optional<double> salinity = {};  // 0 to 0.15; sea water only, 0.035 when absent
};

// "water", "sea-water", "ethylene-glycol", "propylene-glycol".
std::vector<std::string> liquid_names();

// BadInput when the name is not known, when its mass fraction is missing, or when something is said that it
// does not have.
std::shared_ptr<const Liquid> liquid_by_name(const LiquidName& asked);

}  // namespace pumpwright::fluid

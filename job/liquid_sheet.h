// A liquid the program does not know by name, as a shop reads it off a sheet: when it boils, how thick and
// how heavy it is.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/fluid/liquid.h"
#include "engine/quantity/parse.h"
#include "job/json_reader.h"

namespace pumpwright::job {

struct LiquidPoint {
  Written at;     // temperature
  Written value;  // absolute vapour pressure, kinematic viscosity or density there
};

struct LiquidSheet {
  std::string source;                        // the sheet it was read in
  std::vector<LiquidPoint> vapour_pressure;  // two or more
  std::vector<LiquidPoint> viscosity;        // two
  std::vector<LiquidPoint> density;          // one or two
  Written heat_capacity, conductivity;
};

// Of a job file's `service.liquid`, as hands write it. Throws BadInput for anything missing, of the wrong
// kind, or that makes no liquid (engine/fluid/user_liquid.h).
LiquidSheet decode_liquid_sheet(const JsonReader& json, const std::string& name);

// In a frozen plan.
nlohmann::json encode_liquid_sheet(const LiquidSheet& sheet);
LiquidSheet decode_frozen_liquid_sheet(const JsonReader& at);

// Throws the engine's BadInput when the points make no liquid.
std::shared_ptr<const fluid::Liquid> liquid_of(const LiquidSheet& sheet, const std::string& name);

}  // namespace pumpwright::job

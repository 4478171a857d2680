// What a pressure hold goes by and what was read, as the file of `pumpwright pressure-hold` has it.
// docs/pressure-hold.schema.json publishes the format.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/hydraulics/pressure_decay.h"
#include "engine/hydraulics/test_pressure.h"
#include "engine/quantity/parse.h"
#include "job/json_reader.h"

namespace pumpwright::job {

// The name under which the seal stands among the rated parts.
inline constexpr const char* seal_part_name = "the seal, standing still";

enum class HoldMedium { liquid, gas };

struct PressureHoldSheet {
  std::string name;
  hydraulics::HoldRule rule = hydraulics::HoldRule::own;
  hydraulics::HoldBasis basis;
  std::vector<hydraulics::RatedPart> parts;
  std::optional<Power> power;  // of the pump, for the hold time
  std::optional<Time> hold;    // the shop's or the contract's, in place of the rule's
  HoldMedium medium = HoldMedium::liquid;
  std::shared_ptr<const fluid::Liquid> liquid;  // of a liquid test
  hydraulics::LiquidMedium stiffness;  // of a liquid test; modulus and expansion filled in from the liquid
  GaugePressure gauge_range;           // full scale
  bool vented = false, isolated = false;
  // The readings; absent while the test is only being planned.
  std::optional<hydraulics::HoldTest> test;
  bool leak_seen = false;
  std::optional<VolumeFlow> leak_limit;  // of the liquid, or of gas at the atmosphere
  Volume volume;
  AbsolutePressure atmosphere;
  const Unit* pressure_unit = nullptr;  // of the first pressure written
};
// Throws BadInput whose place is a JSON pointer.
PressureHoldSheet decode_pressure_hold(const JsonReader& json);

}  // namespace pumpwright::job

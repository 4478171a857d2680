// What `pumpwright pressure-hold` was asked, and what it found. docs/pressure-hold.schema.json publishes the
// file's format.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/fluid/liquid.h"
#include "engine/hydraulics/pressure_decay.h"
#include "engine/hydraulics/stored_energy.h"
#include "engine/hydraulics/test_pressure.h"
#include "engine/metrology/decision.h"
#include "engine/quantity/parse.h"

namespace pumpwright {

enum class HoldMedium { liquid, gas };

struct PressureHoldFile {
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

struct PressureHoldQuestion {
  std::string file;
  PressureHoldFile sheet;
};

enum class HoldReason {
  planned,           // no readings yet: nothing is judged
  leak_seen,         // fail
  leak_over_limit,   // fail: proven
  leak_under_limit,  // pass: proven
  no_leak_seen,      // pass: no limit stated, none seen, long enough at pressure
  leak_in_doubt,     // unproven: the limit lies inside the uncertainty
  not_vented,        // unproven: trapped air feeds the gauge
  not_isolated,      // unproven: the pump or the bottle feeds the gauge
  too_short,         // unproven
  pressure_short,    // unproven: the test pressure was not reached
  over_rating,       // fail: a part saw more than its rating
};

struct PressureHoldFinding {
  hydraulics::TestPressure pressure;
  hydraulics::HoldTime hold;
  std::optional<hydraulics::LeakFinding> leak;
  Outcome outcome = Outcome::unproven;
  HoldReason reason = HoldReason::planned;
  double chance = 0;             // that the leak keeps to its limit; with a limit and readings
  double gauge_share = 0;        // the test pressure as a part of the gauge's range
  Energy energy, energy_of_gas;  // stored at the test pressure in this medium, and were it gas
};

// Throws BadInput whose place is a JSON pointer.
PressureHoldFile decode_pressure_hold_file(std::string_view bytes);

PressureHoldFinding answer(const PressureHoldQuestion& question);

std::string pressure_hold_text(const PressureHoldQuestion& question, const PressureHoldFinding& finding,
                               bool colour);
std::string pressure_hold_json(const PressureHoldQuestion& question, const PressureHoldFinding& finding);

// "planned", "leak-seen", "leak-over-limit", ….
const char* word_for(HoldReason reason);

}  // namespace pumpwright

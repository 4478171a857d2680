// What a pressure hold says: how high, how long, what leaked, and whether the readings prove anything.
#pragma once

#include <optional>

#include "engine/hydraulics/stored_energy.h"
#include "engine/metrology/decision.h"
#include "job/sheets/pressure_hold_sheet.h"

namespace pumpwright::job {

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

// Throws BadInput whose place is a JSON pointer into the sheet.
PressureHoldFinding pressure_hold_finding(const PressureHoldSheet& sheet);

// "planned", "leak-seen", "leak-over-limit", ….
const char* word_of(HoldReason reason);

}  // namespace pumpwright::job

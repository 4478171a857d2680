// What overall vibration comes to, found from its sheet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/metrology/decision.h"
#include "job/sheets/vibration_sheet.h"

namespace pumpwright::job {

struct JudgedPlace {
  std::string place;
  Velocity rms;
  Velocity u;                              // standard uncertainty
  std::optional<vibration::Zone> zone;     // with category and power
  Outcome by_figures = Outcome::unproven;  // against unrestricted running, as if the zones were confirmed
};

struct VibrationFinding {
  std::optional<vibration::ZoneLimits> limits;
  std::vector<JudgedPlace> places;
};

// BadInput as the engine's.
VibrationFinding vibration_finding(const VibrationSheet& sheet);

JudgedPlace judged_place(const std::string& place, Velocity rms, Velocity u,
                         const std::optional<vibration::ZoneLimits>& limits);

// A calibrated chain, read in the meter's own band, is off by so much of what it reads.
Velocity meter_u(Velocity rms, double error);

}  // namespace pumpwright::job

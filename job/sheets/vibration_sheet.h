// Overall vibration of a pump as meters read it, with what its zones and its tones go by: a job's sheet of
// that name, and most of the file of `pumpwright vibration`. docs/vibration.schema.json publishes the format.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/quantity/parse.h"
#include "engine/vibration/expected_lines.h"
#include "engine/vibration/severity.h"
#include "job/json_reader.h"

namespace pumpwright::job {

struct OverallRead {
  std::string place;
  Written velocity;  // r.m.s.
};

struct VibrationSheet {
  std::string name;
  vibration::PumpFacts pump;
  Written speed;
  std::optional<vibration::PumpCategory> category;
  std::optional<Written> power;  // there with the category, and only then
  std::string confirmed_by;      // who compared the zones with the standard; empty: nobody
  double meter_error = 0.1;      // ± this part of what is read
  std::vector<OverallRead> overall;
};

// Throws BadInput whose place is a JSON pointer. Leaves the key "signal" to the command.
VibrationSheet decode_vibration(const JsonReader& json);

}  // namespace pumpwright::job

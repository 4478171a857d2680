// The rotor file: a shaft with its bearings, impeller and operating point as JSON. docs/rotor.schema.json
// publishes the format; the tests hand one corpus of files to both.
#pragma once

#include <array>
#include <string>

#include "engine/quantity/parse.h"
#include "engine/rotor/assessment.h"
#include "job/json_reader.h"

namespace pumpwright::job {

constexpr int rotor_file_version = 1;

struct RotorSheet {
  std::string name;
  rotor::RotorCase pump;
  std::array<std::string, 2> bearing_names;
  double flow_ratio = 0;
  Written seal_face;               // as written; lengths are shown in its system of units
  bool inertia_estimated = false;  // of the impeller, as a solid disk
};

// Throws BadInput whose place is a JSON pointer.
RotorSheet decode_rotor(const JsonReader& json);

}  // namespace pumpwright::job

// What was found when a pump that came back was stripped: the file of `pumpwright cause`, and a job's sheet
// `strip-down`. docs/strip-down.schema.json publishes the format. Which words for findings there are, the
// catalog says (table cause-findings).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/quantity/parse.h"
#include "job/json_reader.h"

namespace pumpwright::job {

constexpr int strip_down_file_version = 1;

struct FoundThing {
  std::string finding;  // "heat-checks"
  std::string said;     // as the screen named it when it was picked; may be empty
  std::string where;    // "2 o'clock", "120 deg from the keyway"; may be empty
  std::string note;     // may be empty
  std::string pointer;  // where it stands in the file
};

// Widths of the dull band on the wide ring and of the narrow face that made it.
struct TrackMeasured {
  Written track, face;
  Length read_to;  // graduation of the calliper
};

// Of the elastomer, Shore A, and of a new one of its kind on the same durometer.
struct HardnessMeasured {
  Written found, fresh;  // 0 to 100
};

// Plain figures as found; kept and shown.
struct AsFound {
  std::optional<Written> end_float, shaft_runout, working_length;
  std::optional<Written> wear_depth;  // how much shorter the narrow face stands than a new one
};

struct StripDownSheet {
  std::string name;
  std::string complaint;  // what the customer says; may be empty
  std::optional<Written> hours_run;
  std::vector<FoundThing> found;
  std::vector<FoundThing> not_found;  // looked for, and not there
  std::optional<TrackMeasured> track;
  std::optional<HardnessMeasured> hardness;
  AsFound as_found;
};

// Throws BadInput whose place is a JSON pointer: a finding named twice, or both found and not found.
StripDownSheet decode_strip_down(const JsonReader& json);

}  // namespace pumpwright::job

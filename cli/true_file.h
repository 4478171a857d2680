// The true-running file: stations of one pump's two chains, as a hand writes them. docs/true.schema.json
// publishes the format; the tests hand one corpus of files to both.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/assembly/true_centring.h"
#include "engine/quantity/unit.h"
#include "job/true_finding.h"

namespace pumpwright {

constexpr int true_file_version = 1;

// A dial left standing on the bracket while it is tapped over.
struct DialLeft {
  std::string station;
  true_running::ClockPosition at;
  Length change;  // of the surface, away from the axis
};

struct TrueFile {
  std::string name;
  job::TrueQuestion<true_running::Rotating> rotating;  // without stations when the file has none
  job::TrueQuestion<true_running::Standing> standing;
  std::optional<DialLeft> dial;
  const Unit* unit = nullptr;  // of the first TIR
};

// Whether the document says it is one; false for anything that is no JSON object.
bool looks_like_true_file(std::string_view bytes);

// Throws BadInput whose place is a JSON pointer.
TrueFile decode_true_file(std::string_view bytes);

}  // namespace pumpwright

// Other service conditions than the make-up's, as hands write them, put in its place to see what they would
// do.
#pragma once

#include <optional>
#include <string>

#include "job/snapshot.h"

namespace pumpwright::job {

// As written; empty means the make-up's own.
struct TriedConditions {
  std::string temperature = {};
  std::string suction = {};
  std::string head = {};
  std::string speed = {};
  std::string altitude = {};
  std::string length = {};  // working length of the seal
};

struct SealQuestion {
  Snapshot snapshot;  // with the conditions that are tried
  std::optional<Length> length;
  bool tried = false;  // any condition is given
};

// The frozen limits stay as they are; the tried conditions replace the make-up's. Throws BadInput for one
// that can not be read or computed with; its field is `prefix` and the member's name: "--suction".
SealQuestion ask_of_seal(const TriedConditions& tried, const Snapshot& snapshot, const std::string& prefix);

}  // namespace pumpwright::job

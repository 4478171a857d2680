// Everything a verdict depends on besides the events: frozen into the job, so that a later catalog or program
// never changes an old verdict silently.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/metrology/instrument.h"
#include "job/make_up.h"
#include "job/plan.h"
#include "job/utc_time.h"

namespace pumpwright {

// An instrument of the shop and the days between which its calibration holds.
struct ShopInstrument {
  std::string id;
  std::string kind;  // "dial-indicator", "lever-indicator", "micrometer", …
  std::string unit;  // what a bare number on it means: "thou"
  Written graduation;
  std::optional<Written> mpe;            // maximum permissible error, from its certificate
  std::optional<Written> repeatability;  // standard deviation
  UtcTime calibrated;
  UtcTime due;

  bool in_date(UtcTime at) const { return calibrated <= at && at <= due; }
};

// The shop stands behind a limit that does not decide by itself: adopts a common practice, or confirms a
// remembered value against the document.
struct Adoption {
  std::string limit;
  std::string by;
  UtcTime time;
};

struct Snapshot {
  MakeUp make_up;
  Plan plan;
  std::map<std::string, ShopInstrument> instruments;
  std::map<std::string, Adoption> adoptions;
  // Expansion of the materials named by readings, and friction and strength of the fastener, as the catalog
  // gave them.
  std::map<std::string, Expansion> expansions;
  std::string catalog_digest;
  std::string program;  // version and build of the program that made the plan
  std::uint64_t seed = 1;
};

}  // namespace pumpwright

// Everything a verdict depends on besides the events: frozen into the job, so that a later catalog or program
// never changes an old verdict silently.
#pragma once

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/assembly/fastener.h"
#include "job/make_up.h"
#include "job/plan.h"
#include "job/utc_time.h"

namespace pumpwright::job {

// A calibration holds from one moment to another.
struct CalibrationSpan {
  UtcTime from;
  UtcTime to;
};

// An instrument of the shop and the days between which its calibration holds.
struct ShopInstrument {
  std::string id;
  std::string kind;              // "dial-indicator", "lever-indicator", "micrometer", …
  Kind quantity = Kind::length;  // what it measures
  std::string unit;              // what a bare number on it means: "thou"
  Written graduation;
  std::optional<Written> mpe;            // maximum permissible error, from its certificate
  std::optional<Written> repeatability;  // standard deviation
  UtcTime calibrated;
  UtcTime due;
  std::vector<CalibrationSpan> calibrated_again;  // while the job was open

  bool in_date(UtcTime at) const {
    const auto holds = [at](const CalibrationSpan& span) { return span.from <= at && at <= span.to; };
    return holds({calibrated, due}) || std::any_of(calibrated_again.begin(), calibrated_again.end(), holds);
  }
};

// The shop stands behind a limit that does not decide by itself: adopts a common practice, or confirms a
// remembered value against the document.
struct Adoption {
  std::string limit;
  std::string by;
  UtcTime time;
};

// What is known of the impeller's fastener when the plan is made.
struct FastenerFigures {
  Thread thread;
  Pressure proof_stress;
  FrictionRange nut_factor;
  Source proof_source, nut_factor_source;
};

// One face's material, by handbook values of its kind.
struct FaceMaterial {
  std::string letter;  // of EN 12756
  Pressure modulus;
  double poisson = 0;
  Expansion expansion;
  Conductivity conductivity;
  Density density;
  HeatCapacity heat_capacity;
  Source source;
};

// What is known of the seal's faces when the plan is made.
struct SealFigures {
  FaceMaterial ring, seat;
  std::optional<double> friction;  // of the pair in water; absent when no figure is known
  std::optional<Source> friction_source;
  std::optional<Temperature> elastomer_limit;  // in air, of the weakest cure its name may mean
};

struct Snapshot {
  MakeUp make_up;
  Plan plan;
  std::map<std::string, ShopInstrument> instruments;
  std::map<std::string, Adoption> adoptions;
  std::map<std::string, Expansion> expansions;  // of every material the catalog knows
  std::optional<FastenerFigures>
      fastener;                     // absent when the make-up has none, or no friction figure is known
  std::optional<SealFigures> seal;  // absent when the faces' materials are not known
  std::string catalog_digest;
  std::string program;  // version and build of the program that made the plan
  std::uint64_t seed = 1;
};

}  // namespace pumpwright::job

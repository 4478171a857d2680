// What `pumpwright sweep` was asked, and what it found.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/sweep_csv.h"
#include "engine/metrology/decision.h"
#include "engine/metrology/face_sweep.h"
#include "engine/metrology/sweep.h"

namespace pumpwright {

struct SweepQuestion {
  std::string file;
  const Unit* unit = nullptr;  // of bare numbers, and of the answer
  std::vector<SweepRow> rows;
  SweepSetup setup;
  HeldToward held = HeldToward::not_held;
  std::optional<Length> radius;  // face sweeps: where the plunger swept
  std::optional<Length> over;    // face sweeps: diameter over which squareness is stated
  std::optional<Instrument> instrument;
  bool on_eccentricity = false;  // else the limit is on the TIR as read
  Written limit;                 // largest permitted
  DecisionRule rule;
};

// The verdict on the TIR or on the eccentricity, whichever the limit is on.
struct SweepVerdict {
  Outcome outcome = Outcome::unproven;
  std::string reason;  // code of the decision, or "uncertainty-unknown"
  Length margin;       // distance inside the limit; negative outside
  Length guard;
  std::optional<double> conformance_probability;
  Settling<Length> settling;
};

struct SweepFinding {
  SweepResult sweep;
  std::optional<FaceTilt> tilt;
  SweepVerdict verdict;
};

// Throws BadInput (place: the file, and the line where one reading is at fault).
SweepFinding answer(const SweepQuestion& question);

// For people, and for programs (docs/cli.md lists the keys).
std::string sweep_text(const SweepQuestion& question, const SweepFinding& finding, bool colour);
std::string sweep_json(const SweepQuestion& question, const SweepFinding& finding);

}  // namespace pumpwright

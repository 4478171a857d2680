// What `pumpwright torque` was asked, and what it found.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalog/source.h"
#include "engine/assembly/fastener.h"
#include "engine/quantity/unit.h"

namespace pumpwright {

// A number out of the catalog, or out of the command line (then without a source).
struct Sourced {
  std::string what;
  std::string value;
  std::optional<Source> source;
};

struct TorqueQuestion {
  std::string thread_name;
  Thread thread;
  Pressure proof_stress;
  FrictionRange nut_factor;
  std::string advice;            // of the catalog on this condition; may be empty
  std::vector<Sourced> numbers;  // where all of the above came from
  // One of the three; a share of 0.75 when nothing was asked.
  std::optional<AppliedTorque> torque;
  std::optional<Force> preload;
  std::optional<double> proof_share;
  System system = System::metric;  // of the answer
};

struct TorqueFinding {
  Force proof_load;
  PreloadRange preload;  // that the torque gives; one force when a preload was asked for
  ShareRange share;      // of the proof load
  Torque torque_least;   // that gives the preload at the least friction …
  Torque torque_most;    // … and at the most; both the set torque when one was asked about
  std::string verdict;   // "pass" when the proof load is kept to for certain, "fail" when it is not,
                         // "unproven" when friction decides or a number is only remembered
  std::string reason;    // "below-proof-load", "above-proof-load", "friction-decides",
                         // "strength-unconfirmed"
};

TorqueFinding answer(const TorqueQuestion& question);

std::string torque_text(const TorqueQuestion& question, const TorqueFinding& finding, bool colour);
std::string torque_json(const TorqueQuestion& question, const TorqueFinding& finding);

}  // namespace pumpwright

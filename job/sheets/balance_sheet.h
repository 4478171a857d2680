// The balance file: a rotor, its planes and sensors, and the runs made on it, as JSON.
// docs/balance.schema.json publishes the format.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/quantity/parse.h"
#include "engine/rotor/balance_influence.h"
#include "engine/rotor/balance_key.h"
#include "engine/rotor/balance_removal.h"
#include "engine/rotor/balance_tolerance.h"
#include "job/json_reader.h"

namespace pumpwright::job {

constexpr int balance_file_version = 1;

// How a plane may be corrected.
struct WeightsAtHand {
  std::vector<Written> masses;
  std::size_t most_per_place = 1;
};
struct DrillAtHand {
  rotor::Drill drill;
  Angle spacing{};
};

struct PlaneInFile {
  std::string name;
  Written radius;             // of trial and correction weights
  std::optional<Length> at;   // along the shaft
  std::vector<Angle> places;  // permitted ones; empty: anywhere
  std::variant<std::monostate, WeightsAtHand, DrillAtHand, rotor::Grind> by;
};

struct SensorInFile {
  std::string name;
  const Unit* unit = nullptr;  // of its amplitudes, as first written; null without runs
};

struct BalanceSheet {
  std::string name;
  Written mass;
  Written speed;    // in service
  Speed balancing;  // of the runs
  rotor::RotorToBalance rotor;
  std::optional<rotor::BearingPlanes> bearings;
  bool bounds_confirmed = false;  // the shop has read the bounds of the split in the standard
  std::vector<PlaneInFile> planes;
  std::vector<SensorInFile> sensors;
  std::vector<std::string> run_names;
  rotor::BalanceRuns runs;  // planes, sensors and sense are set even when there are no runs
  std::optional<rotor::KeyFitted> key;
};

// Throws BadInput whose place is a JSON pointer.
BalanceSheet decode_balance(const JsonReader& json);

}  // namespace pumpwright::job

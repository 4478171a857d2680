// Readings as they are taken at the bench: what the hand wrote, with which instrument, by whom, when, and
// what it replaces.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/quantity/parse.h"
#include "job/utc_time.h"

namespace pumpwright::job {

struct SweepPoint {
  double angle_deg = 0;  // as written
  Written reading;       // a length
};

struct KeywayGap {
  double from_deg = 0, to_deg = 0;  // readings between the two are left out
};

// The written angles are how far something was turned, not the place under the plunger.
struct TurnedAngles {
  bool indicator_moved = false;  // else the shaft was turned under a fixed plunger
  bool in_rotation = true;       // in the shaft's direction of rotation
  bool marks_rise_with_rotation = true;
  double first_place_deg = 0;  // under the plunger before turning
};

// What was done since the part was last swept: of what turns, the impeller drawn, cleaned and fitted again,
// the sleeve too when it was turned; of what stands, the bracket tapped over, or off and on again.
struct SweepRemedy {
  int impeller_keyway = 0;                  // this many keyways on
  std::optional<double> sleeve_turned_deg;  // absent: the sleeve stayed on
  std::optional<Written> moved;             // the bracket, a length
  double toward_deg = 0;                    // clock position it moved toward, 0 at the top
  std::optional<int> holes;                 // the bracket off, and on again this many holes on
};

// How the indicator sat while the sweep was taken. See engine/metrology/sweep.h for what each does to sign
// and angle.
struct SweepReading {
  std::string mount;  // "shaft", "housing", or empty when nobody wrote it down
  std::string base;   // what the base stood on: "motor-face", "rigid-frame", "shaft", "bench", …
  bool plunger_in_is_plus = true;
  bool inside_surface = false;
  std::optional<TurnedAngles> turned;      // absent: angles are the place under the plunger
  std::optional<double> stylus_angle_deg;  // of a lever indicator
  std::optional<Written> radius;           // of a face sweep
  std::optional<std::string> held_toward;  // face sweep with one indicator: "driver" or "impeller"
  std::optional<Written> zero_return;      // largest change of zero after push, release and tap
  std::optional<Written> bar_sag;          // measured sag of the bar, top to bottom
  std::optional<SweepRemedy> remedy;       // of a sweep taken to see what it did
  std::vector<KeywayGap> gaps;
  std::vector<SweepPoint> points;
  std::vector<Written> opposite;  // face sweep with a second indicator 180° away, read at the same instants
};

struct SizePoint {
  std::string section;   // "near the shoulder", "at the end"
  double clock_deg = 0;  // where the diameter was taken
  Written diameter;
};

struct SizeReading {
  std::vector<SizePoint> points;
  std::optional<Written> part_temperature;
  std::optional<std::string> material;  // row of the materials table; needed with a temperature
};

struct ValueReading {
  std::vector<Written> values;  // repeats of the same measurement; at least one
};

// What a bench test wrote down: a JSON object, the part of its sheet that is read (job/bench_sheet.h).
struct SheetReading {
  std::string json;
};

struct Confirmation {
  bool done = false;
  std::string note;
};

struct Reading {
  std::string id;
  std::string check;
  UtcTime time;
  std::string actor;
  std::string instrument;               // empty for a confirmation
  std::optional<std::string> replaces;  // id of an earlier reading of the same check
  std::variant<Confirmation, ValueReading, SizeReading, SweepReading, SheetReading> body;
};

}  // namespace pumpwright::job

// A check: the one unit of work. What to measure, where, with what, against which limit, and what to do when
// it fails.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "job/limit.h"
#include "job/text.h"

namespace pumpwright::job {

enum class CheckKind {
  confirmation,  // something a person has seen or done
  value,         // one number from one instrument
  size,          // diameters at sections and clock positions
  sweep,         // readings round a turn
  chain,         // a sum of other checks and dimensions; has no reading of its own
  elapsed,       // time from one step's completion to another's
  preload,       // share of a fastener's proof load at the torque that was read
};

// Which number of the reading or of the computation the limit bounds.
enum class Judged {
  confirmed,
  value,       // of value, chain, elapsed, preload
  local_size,  // every diameter read: the largest against the upper bound, the smallest against the lower
  ovality,     // largest difference of diameters within one section
  taper,       // difference of section means
  tir,
  eccentricity,
  squareness,  // face TIR over the named diameter
};

// The two chains that never mix: rotating places carry degrees from the keyway, standing places clock
// positions.
enum class Turning { rotating, standing };

struct SweepWant {
  bool face = false;  // else radial
  std::string
      radius_dimension;  // face: the dimension whose half is the sweep radius when the reading names none
  std::string over_dimension;  // squareness: the diameter over which it is stated
};

// One link of a chain: the value of another check, or a dimension of the make-up.
struct ChainPart {
  Text name;
  double coefficient = 1;
  std::string check;      // either this
  std::string dimension;  // or this
};

struct Check {
  std::string id;
  CheckKind kind = CheckKind::value;
  Judged judged = Judged::value;
  Kind quantity = Kind::length;  // of the judged number
  std::string from;              // the check whose reading is used; empty: its own
  std::string place;             // station on the section ("shaft-end", "register", "impeller-eye")
  Turning turning = Turning::rotating;
  std::string instrument;  // kind of instrument: "dial-indicator", "micrometer", "depth-gauge", "none" …
  Text title;
  Text if_it_fails;
  std::vector<Limit> limits;       // the deciding one first
  SweepWant sweep;                 // for a sweep
  std::vector<ChainPart> chain;    // for a chain
  std::string starts_at, ends_at;  // step ids, for elapsed
};

}  // namespace pumpwright::job

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
  pairing,       // two things of the make-up that must go together; known when the plan is made
  service,       // computed from the make-up's seal and service, and from readings
  sheet,         // a figure of a bench test's sheet
};

// Tests of the bench whose sheet a job can hold.
enum class SheetOf { pressure_hold, balance, alignment, rotor, performance, vibration, system, strip_down };

// Which number of the reading or of the computation the limit bounds.
enum class Judged {
  confirmed,
  value,       // of value, chain, elapsed, preload
  local_size,  // every diameter read: the largest against the upper bound, the smallest against the lower
  ovality,     // largest difference of diameters within one section
  taper,       // difference of section means
  tir,
  eccentricity,
  squareness,           // face TIR over the named diameter
  suits,                // of a pairing: the two go together
  service_temperature,  // of service: the liquid's temperature
  vapour_ratio,         // of service: pressure at the seal over vapour pressure at the faces, both absolute
  spring_force,         // of service: the spring's force at the length the readings give
  face_pv,              // of service: net pressure of the faces times their sliding speed
  tracking_share,       // of service: force that tipping a standing head asks for over that which presses it
  face_margin,          // of service: how far the seat's face reaches beyond the ring's, at the worst place
  held,                 // of a pressure hold: nothing leaked, and the test proves it
  leak,                 // of a pressure hold: the leak that the gauge's fall comes to
  balanced,             // of a balance: what is left keeps to what the grade permits
  aligned,              // of an alignment: offset and angularity keep to their tolerances, warm
  seal_deflection,      // of a rotor: the shaft's at the seal's faces, under its load
  critical_speed,       // of a rotor: far enough from the running speed
  bearing_life,         // of a rotor: of both together
  guarantee,            // of a performance test: head and flow, power, efficiency as promised
  motor_load,           // of a performance test: the most the pump asks over what its motor may give
  severity,             // of vibration: the highest overall velocity of the bearing housings
  operating_point,      // of a system: pump and plant meet, the motor within its rating there
  written_down,         // of a strip-down: what was found, and what was not
};

// Whether it is kept or not is all there is to say: no number can be bounded.
constexpr bool says_yes_or_no(Judged judged) {
  return judged == Judged::confirmed || judged == Judged::suits || judged == Judged::held ||
         judged == Judged::balanced || judged == Judged::aligned || judged == Judged::seal_deflection ||
         judged == Judged::critical_speed || judged == Judged::bearing_life || judged == Judged::guarantee ||
         judged == Judged::operating_point || judged == Judged::written_down;
}

// The pairs a make-up can be asked about.
enum class Pair {
  lubricant_elastomer,
  liquid_elastomer,
  ring_seat,
  coil_rotation,      // hand of a conical spring's coil
  fastener_rotation,  // hand of the impeller's fastener
};

enum class Goes { together, apart, unknown };

// What was found of a pair when the plan was made.
struct Pairing {
  Goes goes = Goes::unknown;
  Text things;   // "EPDM in water-glycol"
  Text why;      // why they do not go together; empty when they do or nobody knows
  Text instead;  // what to use instead; may be empty
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

// The part of a chain with which the shop sets its sum right.
struct ChainCorrection {
  Text name;          // "shim on the shaft's shoulder"
  std::string check;  // its reading, where there is one already; adds to the sum one to one
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
  std::vector<Limit> limits;                  // the deciding one first
  SweepWant sweep;                            // for a sweep
  std::vector<ChainPart> chain;               // for a chain
  std::optional<ChainCorrection> correction;  // for a chain
  std::string starts_at, ends_at;             // step ids, for elapsed
  std::optional<Pairing> pairing;             // for a pairing
  std::optional<SheetOf> sheet;               // for a sheet
};

}  // namespace pumpwright::job

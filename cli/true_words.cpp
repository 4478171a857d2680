#include "cli/true_words.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

using true_running::Blame;
using true_running::ClockPosition;
using true_running::Fault;
using true_running::FromKeyway;
using true_running::Rotating;
using true_running::Standing;

template <class Chain>
typename Chain::Direction toward(const Blame<Chain>& b) {
  return b.offset ? b.offset->direction() : b.tilt->direction();
}

template <class Direction>
Direction opposite(Direction d) {
  return {true_running::wrapped(radians(d.angle.value() + pi))};
}

// What stands between the size and the direction of the error.
struct Sentence {
  const char* before;
  const char* between;
  const char* after;
};

Sentence sentence_of(Fault f) {
  switch (f) {
    case Fault::bent_shaft:
      return {"the shaft is bent: it leans ", " toward ", ""};
    case Fault::shaft_off_axis:
      return {"the shaft runs ", " off its bearings' axis, toward ", ""};
    case Fault::sleeve_off_centre:
      return {"the sleeve sits ", " off centre, toward ", ""};
    case Fault::sleeve_out_of_square:
      return {"the sleeve is bored askew: it leans ", " toward ", " and goes round with the sleeve"};
    case Fault::sleeve_not_home:
      return {"sleeve and impeller sit cocked ", " of bore toward ", ": the sleeve is not home"};
    case Fault::impeller_off_centre:
      return {"the impeller sits ", " off centre, toward ", ""};
    case Fault::impeller_out_of_square:
      return {"the impeller is bored askew: ", " of bore toward ", ""};
    case Fault::impeller_not_home:
      return {"the impeller sits cocked ", " of bore toward ", ": it is not home"};
    case Fault::register_off_centre:
      return {"the motor's register stands ", " off the shaft's axis, toward ", ""};
    case Fault::face_out_of_square:
      return {"the motor's face is out of square: its axis leans ", " toward ", ""};
    case Fault::bracket_off_centre:
      return {"the bracket sits ", " off centre, toward ", ""};
    case Fault::bracket_out_of_square:
      return {"the bracket's two faces are not parallel: it leans ", " toward ", ""};
    case Fault::dirt_under_bracket:
      return {"the bracket is not down on the motor's face: it leans ", " toward ", ""};
    case Fault::seat_out_of_square:
      return {"the seat's face is out of square: its axis leans ", " toward ", ""};
    case Fault::indicator_loose:
      return {"the indicator did not hold: ", " toward ", " belongs to no part"};
  }
  return {"", "", ""};
}

// `under`: where what lies under a leaning part is to be looked for.
std::string advice_of(Fault f, const std::string& under) {
  switch (f) {
    case Fault::bent_shaft:
      return "A bent shaft is not straightened under a seal: reject the motor.";
    case Fault::shaft_off_axis:
      return "Nothing that is fitted to the shaft cures this: feel the bearing for play, look at the base of "
             "the "
             "indicator, else reject the motor.";
    case Fault::sleeve_off_centre:
      return "Turn the sleeve as below, or fit another.";
    case Fault::sleeve_out_of_square:
      return "Another sleeve; turning it as below only shares the error out.";
    case Fault::sleeve_not_home:
      return fmt::format(
          "Draw it, look for a ring pinched or dirt under it near {}, clean, push it home and sweep again.",
          under);
    case Fault::impeller_off_centre:
      return "Turn it to another keyway if it has one, else another impeller or a bush.";
    case Fault::impeller_out_of_square:
      return "Another impeller; another keyway only shares the error out.";
    case Fault::impeller_not_home:
      return fmt::format(
          "Draw it, look for dirt, a long key or a ring pinched under its hub near {}, clean, and sweep "
          "again.",
          under);
    case Fault::register_off_centre:
      return "Look for a dent or paint on the register; if it stays, the bracket must be moved by this "
             "against it.";
    case Fault::face_out_of_square:
      return fmt::format("Stone the face, look for a dent or paint near {}.", under);
    case Fault::bracket_off_centre:
      return "Loosen it and tap it over as below.";
    case Fault::bracket_out_of_square:
      return "Shim it as below, or another bracket.";
    case Fault::dirt_under_bracket:
      return fmt::format(
          "Take it off, look for dirt or grease near {}, wipe both faces dry, bolt it on crosswise.", under);
    case Fault::seat_out_of_square:
      return fmt::format("Out with the seat, look for a pinched ring or dirt in its pocket near {}.", under);
    case Fault::indicator_loose:
      return "Set the indicator anew (push, release, tap) and sweep that place again before anything is "
             "moved.";
  }
  return "";
}

}  // namespace

std::string TrueWords::length(Length l) const {
  const double step = unit_.symbol == "thou" || unit_.symbol == "µm" ? 0.1 : 1e-3;
  const int decimals = unit_.symbol == "in" ? 4 : step == 0.1 ? 1 : 3;
  return format_decimals(l, unit_, decimals);
}

std::string TrueWords::lean(Angle tilt) const {
  if (unit_.system == System::inch) return fmt::format("{:.1f} thou per inch", tilt.value() * 1e3);
  return fmt::format("{:.2f} mm per 100 mm", tilt.value() * 100);
}

std::string TrueWords::place(FromKeyway at) {
  return fmt::format("{}° from the keyway", std::lround(degrees_of(at.angle)) % 360);
}

std::string TrueWords::place(ClockPosition at) {
  const long halves = std::lround(degrees_of(at.angle) / 15) % 24;
  const long hour = halves / 2 == 0 ? 12 : halves / 2;
  return halves % 2 == 0 ? fmt::format("{} o'clock", hour) : fmt::format("{}:30", hour);
}

template <class Chain>
std::string TrueWords::wrong(const Blame<Chain>& b) const {
  const Sentence s = sentence_of(b.fault);
  const std::string size = b.offset ? length(b.offset->size()) : lean(b.tilt->size());
  const std::string where = b.station.empty() ? "" : " (" + b.station + ")";
  return s.before + size + s.between + place(toward(b)) + s.after + where;
}

template <class Chain>
std::string TrueWords::advice(const Blame<Chain>& b) const {
  return advice_of(b.fault, place(opposite(toward(b))));
}

template <class Chain>
std::string TrueWords::wrong(const true_running::Hypothesis<Chain>& h) const {
  if (h.blames.empty()) return "nothing is out beyond the ordinary";
  std::string out;
  for (const auto& b : h.blames)
    out += (out.empty() ? "" : "; and ") + wrong(b);
  return out;
}

std::string TrueWords::doing(const true_running::Remedy<Rotating>& r,
                             const true_running::RotatingMoves& moves) const {
  if (r.work == 0) return "leave it as it is";
  std::string out =
      r.setting.sleeve_turned ? "draw impeller and sleeve, clean, " : "draw the impeller, clean, ";
  if (r.setting.sleeve_turned) {
    const long turned = std::lround(degrees_of(*r.setting.sleeve_turned)) % 360;
    out += turned == 0
               ? "fit the sleeve home as it was"
               : fmt::format("fit the sleeve home turned by {}° (its old 0° comes to {}° from the keyway)",
                             turned, turned);
    out += ", ";
  }
  const int step = r.setting.impeller_keyway.value_or(0);
  out += step == 0 ? "fit the impeller as it was"
                   : fmt::format("fit the impeller {} of its {} keyways on", step, moves.impeller_keyways);
  return out;
}

std::string TrueWords::doing(const true_running::Remedy<Standing>& r) const {
  if (r.work == 0) return "leave it as it is";
  const auto& s = r.setting;
  std::string out;
  if (s.holes) {
    out = "take the bracket off, wipe both faces, bolt it on ";
    out += *s.holes == 0 ? "as it was" : fmt::format("{} hole{} on", *s.holes, *s.holes == 1 ? "" : "s");
  }
  const auto add = [&](const std::string& part) { out += (out.empty() ? "" : ", ") + part; };
  if (s.shim)
    add(fmt::format("put {} of shim under it at {}", length(s.shim->thickness), place(s.shim->bolt)));
  if (s.shift.size().value() > 0)
    add(fmt::format("move the bracket {} toward {}", length(s.shift.size()), place(s.shift.direction())));
  return out.empty() ? "leave it as it is" : out;
}

const char* name_of(Rotating::Part part) {
  return part == Rotating::Part::shaft ? "shaft" : part == Rotating::Part::sleeve ? "sleeve" : "impeller";
}

const char* name_of(Standing::Part part) {
  return part == Standing::Part::motor ? "motor" : part == Standing::Part::bracket ? "bracket" : "seat";
}

template std::string TrueWords::wrong<Rotating>(const Blame<Rotating>&) const;
template std::string TrueWords::wrong<Standing>(const Blame<Standing>&) const;
template std::string TrueWords::advice<Rotating>(const Blame<Rotating>&) const;
template std::string TrueWords::advice<Standing>(const Blame<Standing>&) const;
template std::string TrueWords::wrong<Rotating>(const true_running::Hypothesis<Rotating>&) const;
template std::string TrueWords::wrong<Standing>(const true_running::Hypothesis<Standing>&) const;

}  // namespace pumpwright

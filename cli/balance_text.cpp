// What `pumpwright balance` prints for people.
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/balance_question.h"
#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"
#include "job/json_quantity.h"
#include "job/sheets/balance_units.h"

namespace pumpwright {
namespace {

using job::BalanceFinding;
using job::BalanceSheet;
using job::DrillAtHand;
using job::PlaneCorrection;
using job::PlaneInFile;
using job::WeightsAtHand;
using rotor::Unbalance;

constexpr std::size_t text_width = 100;

// In the units of the file: metric when the rotor's mass is.
struct Shown {
  const BalanceQuestion& q;
  bool inch;

  explicit Shown(const BalanceQuestion& question) : q(question), inch(job::in_inches(question.balance)) {}

  std::string unbalance(Unbalance u) const { return job::unbalance_text(q.balance, u); }
  std::string suitable(const AnyQuantity& value) const {
    return format_significant(
        value, suitable_unit(value.kind(), std::abs(value.si()), inch ? System::inch : System::metric), 3);
  }
  std::string depth(Length l) const {
    return inch ? format_decimals(l, unit_with_symbol("in", Kind::length), 3)
                : format_decimals(l, unit_with_symbol("mm", Kind::length), 2);
  }
  std::string angle(Angle a) const { return fmt::format("{:.1f}°", degrees_of(a)); }
};

std::string reason_text(const std::string& reason) {
  if (reason == "inside-guarded") return "every amount keeps to its limit, its doubt included";
  if (reason == "outside-guarded") return "more is left than is permitted";
  if (reason == "trial-runs-wanted")
    return "a run as found and one with a trial weight in each plane are needed to tell the unbalance";
  if (reason == "planes-not-told-apart")
    return "the two planes act so alike on the sensors that their shares are not to be told apart: fit no "
           "correction from these runs; take a heavier trial weight, another sensor place, or one plane";
  if (reason == "uncertainty-not-known")
    return "nothing is known of the readings' doubt: state amplitude_u and phase_u of the sensors, or repeat "
           "runs";
  if (reason == "limit-unconfirmed")
    return "the bound of a bearing's share is remembered from ISO 21940-11: read it there and state "
           "bounds_confirmed";
  return "the limit lies inside the doubt: repeat runs, or read amplitude and phase finer";
}

std::string angles_text(const BalanceSheet& file) {
  const bool against = file.runs.sense.places == rotor::PlacesRise::against_rotation;
  const bool lag = file.runs.sense.phase == rotor::PhaseIs::lag;
  return fmt::format("Places are degrees from the keyway or mark, rising {} rotation. Phase is {}.",
                     against ? "against" : "with",
                     lag ? "a lag: how far the rotor turns on from the mark's pulse to the peak"
                         : "a lead: how far the rotor turns from the peak to the mark's pulse");
}

std::string permitted_text(const Shown& s, const BalanceFinding& f) {
  const auto& file = s.q.balance;
  TextTable table({Align::left, Align::left});
  table.add({"grade", fmt::format("G {:g}{}", file.rotor.grade.value() * 1000,
                                  f.grade_is_listed ? "" : " (between the standard's grades)")});
  table.add({"permitted", fmt::format("{} for {} at {}: centre of mass {} off the axis (ISO 21940-11)",
                                      s.unbalance(f.permissible), file.mass.text, file.speed.text,
                                      s.suitable(f.eccentricity))});
  if (f.at_bearings)
    table.add(
        {"at bearings",
         fmt::format("A {}, B {}; mass {}{}", s.unbalance(f.at_bearings->a), s.unbalance(f.at_bearings->b),
                     f.at_bearings->mass == rotor::MassStands::outboard ? "outboard" : "between",
                     f.at_bearings->bounded ? "; a share was bounded (remembered)" : "")});
  return table.text();
}

std::string judged_text(const Shown& s, const BalanceFinding& f, bool colour) {
  TextTable table({Align::left, Align::right, Align::right, Align::right, Align::right, Align::left});
  table.add({"where", "left", "heavy at", "standard doubt", "limit", ""});
  for (const auto& j : f.judged)
    table.add({one_line(j.where), s.unbalance(j.verdict.amount), s.angle(j.place),
               j.verdict.u ? s.unbalance(*j.verdict.u) : "not known", s.unbalance(j.verdict.limit),
               verdict_word(code(j.verdict.outcome), colour)});
  return table.text();
}

std::string weights_line(const Shown& s, const PlaneInFile& plane, const rotor::WeightChoice& chosen) {
  const auto& masses = std::get<WeightsAtHand>(plane.by).masses;
  std::vector<std::string> places;
  for (const auto& load : chosen.loads) {
    places.push_back(fmt::format("{} at {}", job::as_written(load.weights, masses), s.angle(load.place)));
  }
  const std::string what = places.empty() ? "none of the weights at hand comes nearer than none"
                                          : fmt::format("fit {}", fmt::join(places, ", "));
  return fmt::format("{}; leaves {} at {}", what, s.unbalance(chosen.left.amount),
                     s.angle(chosen.left.place));
}

std::string hole_line(const Shown& s, const PlaneInFile& plane, const std::optional<rotor::Holes>& holes) {
  if (!holes) return "the permitted depth does not reach";
  const std::string size =
      fmt::format("{} to the tip ({} of full diameter), {} out", s.depth(holes->each.to_tip),
                  s.depth(holes->each.to_full_diameter), s.suitable(holes->each.taken_out));
  if (holes->count == 1) return "drill " + size;
  return fmt::format("drill {} holes {} apart, centred there, each {}", holes->count,
                     s.angle(std::get<DrillAtHand>(plane.by).spacing), size);
}

std::string pad_line(const Shown& s, const rotor::GroundPad& pad) {
  if (!pad.reaches) return fmt::format("would take {} deep: more than is permitted", s.depth(pad.depth));
  return fmt::format("grind {} deep, {} out", s.depth(pad.depth), s.suitable(pad.taken_out));
}

std::string correction_text(const Shown& s, const PlaneInFile& plane, const PlaneCorrection& c) {
  std::string text = fmt::format("{}: add {} at radius {}, {}; or take as much out at {}\n",
                                 one_line(plane.name), s.suitable(c.mass), plane.radius.text,
                                 s.angle(c.add.place), s.angle(rotor::opposite(c.add.place)));
  const bool removes = !c.holes.empty() || !c.pads.empty();
  for (std::size_t i = 0; i < c.parts.size(); ++i) {
    const auto& part = c.parts[i];
    if (removes)
      text += fmt::format("  at {}: {}\n", s.angle(part.place),
                          c.holes.empty() ? pad_line(s, c.pads[i]) : hole_line(s, plane, c.holes[i]));
    else if (!plane.places.empty())
      text += fmt::format("  at {}: {}\n", s.angle(part.place),
                          s.suitable(part.amount / plane.radius.quantity().as<Length>()));
  }
  if (c.chosen) text += "  " + weights_line(s, plane, *c.chosen) + "\n";
  return text;
}

std::string solution_text(const Shown& s, const BalanceFinding& f, bool colour) {
  if (!f.solution) return "";
  const auto& file = s.q.balance;
  std::string text = "\n" + judged_text(s, f, colour);
  if (!f.solution->told_apart) return text;
  text +=
      f.verdict == "pass"
          ? "\nNothing need be done. To come nearer to nothing, to what is on the rotor in the last run:\n"
          : "\nCorrection, to what is on the rotor in the last run:\n";
  for (std::size_t p = 0; p < file.planes.size(); ++p)
    text += correction_text(s, file.planes[p], f.corrections[p]);
  std::vector<std::string> left;
  for (std::size_t i = 0; i < file.sensors.size(); ++i) {
    const Unit& unit = *file.sensors[i].unit;
    left.push_back(fmt::format("{} {}", one_line(file.sensors[i].name),
                               format_significant({unit.kind, f.solution->left_over[i].amplitude}, unit, 2)));
  }
  if (file.sensors.size() > file.planes.size())
    text += fmt::format("Vibration left after it, by calculation: {}\n", fmt::join(left, ", "));
  if (file.planes.size() > 1) text += fmt::format("Condition of the planes: {:.2g}\n", f.solution->condition);
  return text;
}

std::string effects_text(const BalanceFinding& f) {
  std::string text;
  for (const auto& effect : f.effects)
    if (!effect.enough)
      text += fmt::format(
          "Run \"{}\" differs from the first by less than 30 % and 30° on every sensor: it tells little.\n",
          one_line(effect.run));
  return text.empty() ? "" : "\n" + text;
}

std::string trial_text(const Shown& s, const BalanceFinding& f) {
  std::string text = "\nTrial weight to begin with (habit of the trade: a tenth of the plane's load):\n";
  const auto& file = s.q.balance;
  for (std::size_t p = 0; p < file.planes.size(); ++p)
    text +=
        fmt::format("  {}: {} at radius {}; pulls with {}\n", one_line(file.planes[p].name),
                    s.suitable(f.trial[p].mass), file.planes[p].radius.text, s.suitable(f.trial[p].force));
  return text;
}

std::string key_text(const Shown& s, const BalanceFinding& f) {
  if (!f.key) return "";
  std::string text =
      fmt::format("\nKey: {} {} (key conventions: ISO 21940-32), {:.0f} % of what the rotor may keep.\n",
                  s.unbalance(f.key->amount), f.key->towards_key ? "heavy on its side" : "light on its side",
                  100 * (f.key->amount / f.permissible).value());
  if (f.key->neutral_length)
    text += fmt::format("A key of {} would leave none.\n", s.depth(*f.key->neutral_length));
  return text;
}

std::string caution_text() {
  return "\n" + wrapped(
                    "Caution: a weight that comes off is a bullet. Before any weight is fitted: driver "
                    "locked out and "
                    "tagged, rotor at rest. Weights held by more than their pull; guards on; nobody in the "
                    "plane of the "
                    "rotor while it runs up. Stop when the vibration passes the machine's trip level. Where "
                    "the site or "
                    "the law says more, that holds.",
                    text_width);
}

}  // namespace

std::string balance_text(const BalanceQuestion& q, const BalanceFinding& f, bool colour) {
  const Shown s(q);
  std::string text = fmt::format("{}: {}\n\n", shown_name(q.file), one_line(q.balance.name));
  text += f.verdict.empty()
              ? "No runs in the file: nothing is judged.\n"
              : wrapped(fmt::format("{}  {}", verdict_word(f.verdict, colour), reason_text(f.reason)),
                        text_width);
  text += permitted_text(s, f) + wrapped(angles_text(q.balance), text_width);
  text += solution_text(s, f, colour) + effects_text(f);
  if (!f.solution) text += trial_text(s, f);
  return text + key_text(s, f) + caution_text();
}

}  // namespace pumpwright

// What `pumpwright sweep` tells people.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/sweep_question.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

constexpr std::size_t text_width = 100;

// Writes lengths in the unit asked for: readings with the digits of the indicator, computed figures with one
// more.
class Writer {
 public:
  explicit Writer(const SweepQuestion& q) : q_(q) {
    if (q.instrument) {
      decimals_ = decimals_for_graduation(q.instrument->graduation.value(), *q.unit);
      return;
    }
    for (const auto& row : q.rows)
      decimals_ = std::max(decimals_, decimals_for_graduation(row.reading.last_place_si, *q.unit));
    decimals_ = std::min(decimals_, 8);
  }

  std::string read(Length length, Sign sign = Sign::when_negative) const {
    return format_decimals(length, *q_.unit, decimals_, sign);
  }
  std::string computed(Length length, Sign sign = Sign::when_negative) const {
    return format_decimals(length, *q_.unit, decimals_ + 1, sign);
  }
  // The same length in the other system, for the reader who thinks in that one.
  std::string other_system(Length length) const {
    const System other = q_.unit->system == System::inch ? System::metric : System::inch;
    return format_significant(length, suitable_unit(Kind::length, std::abs(length.value()), other), 3);
  }

 private:
  const SweepQuestion& q_;
  int decimals_ = 0;
};

std::string degrees_text(Angle angle) {
  const double rounded = std::round(degrees_of(angle) * 10) / 10;
  return fmt::format("{:g}°", rounded == 360 ? 0 : rounded);
}

std::string probability_text(double p) {
  if (p > 0.999) return "above 99.9 %";
  if (p < 0.001) return "below 0.1 %";
  return fmt::format("{:.1f} %", 100 * p);
}

std::string setup_text(const SweepQuestion& q) {
  std::string text = q.setup.axis == Axis::face ? "face" : "radial";
  if (q.setup.axis == Axis::radial)
    text += q.setup.surface == Surface::inside ? ", inside surface" : ", outside surface";
  text += q.setup.plunger_in == PlungerIn::plus ? ", plunger in reads plus" : ", plunger in reads minus";
  switch (q.setup.mount) {
    case Mount::shaft:
      return text + "; base standing, plunger on the turning shaft";
    case Mount::housing:
      return text + "; base turning with the shaft, plunger on a standing part";
    case Mount::unknown:
      break;
  }
  return text + "; mount not stated";
}

std::string rule_text(const SweepQuestion& q) {
  if (const auto* simple = std::get_if<SimpleAcceptance>(&q.rule))
    return fmt::format("simple acceptance, {:g} graduations must fit into the limit", simple->ratio);
  return "guarded, proven to 95 %";
}

std::string reason_text(const SweepQuestion& q, const SweepVerdict& v) {
  if (v.reason == "uncertainty-unknown")
    return "nothing says how far these readings can be trusted: give --graduation, or take more readings";
  if (v.reason == "instrument-too-coarse") return "the graduation is too coarse for this limit";
  if (v.reason == "instrument-not-stated") return "simple acceptance needs --graduation";
  if (v.outcome == Outcome::unproven) return "the limit lies inside the uncertainty of the measurement";
  const std::string_view side = v.outcome == Outcome::pass ? "inside" : "outside";
  return std::holds_alternative<Guarded>(q.rule)
             ? fmt::format("{} the limit by more than the guard band", side)
             : fmt::format("{} the limit as read", side);
}

std::string settling_text(const SweepVerdict& v, const Writer& w) {
  std::vector<std::string> ways;
  if (v.settling.graduation)
    ways.push_back(
        fmt::format("an indicator with a graduation of at most {}", w.computed(*v.settling.graduation)));
  if (v.settling.repeats)
    ways.push_back(fmt::format("the mean of {} sweeps with this result", *v.settling.repeats));
  if (v.settling.u && ways.empty())
    ways.push_back(fmt::format("a standard uncertainty of at most {}", w.computed(*v.settling.u)));
  return fmt::format("{}", fmt::join(ways, ", or "));
}

std::string verdict_text(const SweepQuestion& q, const SweepFinding& f, const Writer& w, bool colour) {
  const auto& v = f.verdict;
  const std::string what = q.on_eccentricity ? "eccentricity" : "TIR as read";
  const Length value = q.on_eccentricity ? f.sweep.eccentricity.value : f.sweep.tir.value;
  const Length limit = metres(q.limit.si);
  TextTable table({Align::left, Align::left});
  table.add({verdict_word(code(v.outcome), colour), reason_text(q, v)});
  const std::string shown = q.on_eccentricity ? w.computed(value) : w.read(value);
  table.add({what, fmt::format("{} ({}), limit at most {} ({})", shown, w.other_system(value), q.limit.text,
                               q.limit.unit_was_written ? w.other_system(limit) : w.read(limit))});
  table.add({"rule", rule_text(q)});
  std::string margin = fmt::format("{}", w.computed(v.margin, Sign::always));
  if (v.guard.value() > 0) margin += fmt::format(", guard band {}", w.computed(v.guard));
  if (v.conformance_probability)
    margin += fmt::format("; probability of conforming {}", probability_text(*v.conformance_probability));
  table.add({"margin", margin});
  const auto settling = settling_text(v, w);
  if (!settling.empty()) table.add({"would settle it", settling});
  return table.text();
}

std::string high_spot_text(const SweepResult& s) {
  if (!s.high_spot) return "not determined: the eccentricity is not larger than its uncertainty";
  std::string text = degrees_text(*s.high_spot);
  if (s.high_spot_u) text += fmt::format(" ± {}", degrees_text(*s.high_spot_u));
  if (s.mount == Mount::shaft) return text + ", a place on the shaft, in the angles as written";
  if (s.mount == Mount::housing) return text + ", a place on the standing part, in the angles as written";
  return text + " in the angles as written; not known to be a place on shaft or housing (--mount not given)";
}

std::string uncertainty_text(const SweepResult& s, const Writer& w) {
  const std::string each = s.reading_u ? w.computed(*s.reading_u) : "";
  switch (s.scatter_from) {
    case ScatterFrom::residuals:
      return fmt::format(
          "{} for one reading, from the scatter about the fitted curve ({:g} degrees of freedom)", each,
          s.reading_dof);
    case ScatterFrom::instrument:
      return fmt::format("{} for one reading, from the indicator's figures", each);
    case ScatterFrom::second_turn:
      return fmt::format("{} for one reading, from places read again in another turn", each);
    case ScatterFrom::none:
      break;
  }
  return "not known: too few readings for their scatter to tell, and no graduation given";
}

std::string reading_at(const SweepQuestion& q, std::size_t index, const Writer& w) {
  const auto& row = q.rows[index];
  return fmt::format("{} at {}", w.read(metres(row.reading.si), Sign::always),
                     degrees_text(radians(row.angle.si)));
}

void add_tir_rows(TextTable& table, const SweepQuestion& q, const SweepFinding& f, const Writer& w) {
  const auto& s = f.sweep;
  std::string tir = fmt::format("{}: {} and {}", w.read(s.tir.value), reading_at(q, s.lowest, w),
                                reading_at(q, s.highest, w));
  if (s.tir_u) tir += fmt::format("; standard uncertainty {}", w.computed(*s.tir_u));
  table.add({"TIR as read", tir});
  table.add({"TIR of the fitted curve", w.computed(s.tir_fitted.value)});
  table.add({"TIR that may be missed",
             fmt::format("up to {} between these {} places, if the form has no order above {}",
                         w.computed(s.missed_tir.bound()), s.places, s.carried_order)});
}

std::string harmonics_text(const SweepResult& s, const Writer& w) {
  std::vector<std::string> each;
  for (const auto& h : s.harmonics)
    each.push_back(fmt::format("{}: {} at {}", h.order, w.computed(h.amplitude), degrees_text(h.phase)));
  return fmt::format("{}", fmt::join(each, "; "));
}

void add_vector_rows(TextTable& table, const SweepQuestion& q, const SweepFinding& f, const Writer& w) {
  const auto& s = f.sweep;
  const bool face = q.setup.axis == Axis::face;
  std::string e = w.computed(s.eccentricity.value);
  if (s.vector_uncertainty)
    e += fmt::format(", standard uncertainty {}", w.computed(s.vector_uncertainty->u));
  table.add({face ? "once-per-turn amplitude" : "eccentricity", e});
  table.add({"high spot", high_spot_text(s)});
  table.add({"harmonics", harmonics_text(s, w)});
  table.add({"form left over", fmt::format("RONt {}, RONq {}", w.computed(s.ront), w.computed(s.ronq))});
}

void add_face_rows(TextTable& table, const SweepQuestion& q, const SweepFinding& f, const Writer& w) {
  if (q.setup.axis != Axis::face) return;
  if (!f.tilt) {
    table.add({"tilt", "not claimed: the shaft is not known to have been held (--held-toward)"});
    return;
  }
  std::string squareness = fmt::format("{} over {}", w.computed(f.tilt->squareness),
                                       w.read(q.over.value_or(2.0 * q.radius.value())));
  if (f.tilt->squareness_u)
    squareness += fmt::format(", standard uncertainty {}", w.computed(*f.tilt->squareness_u));
  table.add({"squareness", squareness});
  table.add({"tilt", fmt::format("{:.4f}°", degrees_of(f.tilt->tilt))});
}

void add_repeat_rows(TextTable& table, const SweepResult& s, const Writer& w) {
  table.add({"closure", s.closure ? w.read(*s.closure, Sign::always)
                                  : "not known: the first place was not read again at the end"});
  if (s.drift_per_turn) table.add({"drift per turn", w.computed(*s.drift_per_turn, Sign::always)});
  if (s.repeatability)
    table.add({"repeatability", fmt::format("{} standard deviation, {} degrees of freedom",
                                            w.computed(*s.repeatability), s.repeatability_dof)});
  table.add({"uncertainty", uncertainty_text(s, w)});
}

std::string suspects_text(const SweepQuestion& q, const SweepResult& s, const Writer& w) {
  std::string text;
  for (const auto& suspect : s.suspects)
    text += wrapped(fmt::format("Read again at {} (line {}): {} off the curve of the others. It still counts "
                                "until it is read again.",
                                degrees_text(radians(q.rows[suspect.index].angle.si)),
                                q.rows[suspect.index].line, w.computed(suspect.residual, Sign::always)),
                    text_width);
  if (s.residuals_unexplained)
    text += wrapped(
        "More is left over than the indicator explains: form, looseness or a bad reading. More "
        "places would tell.",
        text_width);
  return text;
}

}  // namespace

std::string sweep_text(const SweepQuestion& q, const SweepFinding& f, bool colour) {
  const Writer w(q);
  const auto& s = f.sweep;
  std::string text = fmt::format("{}: {} readings at {} places", shown_name(q.file), s.count, s.places);
  if (s.left_out > 0) text += fmt::format(" ({} more inside the gap left out)", s.left_out);
  text += "\n" + setup_text(q) + "\n\n" + verdict_text(q, f, w, colour) + "\n";
  TextTable table({Align::left, Align::left});
  add_tir_rows(table, q, f, w);
  add_vector_rows(table, q, f, w);
  add_face_rows(table, q, f, w);
  add_repeat_rows(table, s, w);
  text += table.text();
  const auto suspects = suspects_text(q, s, w);
  return suspects.empty() ? text : text + "\n" + suspects;
}

}  // namespace pumpwright

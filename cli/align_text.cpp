// What `pumpwright align` prints for people.
#include <cmath>

#include <fmt/format.h>

#include "cli/align_question.h"
#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/verdict_word.h"
#include "job/json_quantity.h"
#include "job/sheets/alignment_units.h"

namespace pumpwright {
namespace {

using alignment::ShaftLine;
using job::AlignmentFinding;
using job::AlignmentSheet;
using job::FootPlan;
using job::SeenFrom;

constexpr std::size_t text_width = 100;

// With what is not known said so.
struct Shown : job::AlignmentUnits {
  using AlignmentUnits::AlignmentUnits;
  using AlignmentUnits::length;
  std::string length(const std::optional<Length>& l) const { return l ? length(*l) : "not known"; }
};

std::string reason_text(const AlignmentSheet& file, const std::string& reason) {
  if (reason == "inside-guarded")
    return "offset and angularity keep to their tolerances warm, their doubt included";
  if (reason == "outside-guarded") return "out of tolerance warm: do the moves below, then sweep again";
  if (reason == "sweep-disagrees")
    return "a turn's readings do not fit one another (top + bottom against left + right, or the zero did not "
           "come "
           "back): look for a loose bracket, a plunger at its end, a bent shaft, then sweep again";
  if (reason == "soft-foot")
    return "a foot is soft: readings taken over it are not to be trusted; shim it first";
  if (reason == "uncertainty-not-known") return "nothing is known of the readings' doubt";
  if (reason == "instrument-out-of-date") return "the indicator was out of date";
  return fmt::format("the tolerance lies inside the doubt: sweep more places than {}, or a finer indicator",
                     file.dials[0].readings.size());
}

std::string seen_text(const AlignmentSheet& file) {
  const bool fixed = file.seen_from == SeenFrom::fixed_machine;
  return fmt::format(
      "Clock positions, left and right as seen from the outer end of the {} machine, looking along the "
      "shafts.\n",
      fixed ? "fixed" : "moved");
}

std::string dials_text(const AlignmentSheet& file, const AlignmentFinding& f, const Shown& s) {
  TextTable table({Align::left, Align::left, Align::right, Align::right, Align::left});
  table.add({"indicator", "", "wave", "disagreement", ""});
  for (std::size_t d = 0; d < 2; ++d) {
    const auto& sweep = f.dials[d].sweep;
    table.add({one_line(file.dial_names[d]), file.dials[d].on == alignment::DialOn::rim ? "rim" : "face",
               s.length(sweep.eccentricity.value), s.length(f.dials[d].disagreement),
               f.dials[d].valid ? "" : "does not fit a turn"});
  }
  return table.text();
}

std::string side(Length l, const char* plus, const char* minus) {
  return l.value() < 0 ? minus : plus;
}

std::string line_text(const ShaftLine& line, const Shown& s) {
  const auto up = line.up_at(metres(0));
  const auto right = line.right_at(metres(0));
  const auto slope = [&](double m_m) { return s.slope(radians(m_m)); };
  return fmt::format("{} {}, {} to the {}; rising {} and going right {} away from the coupling",
                     s.length(metres(std::abs(up.value()))), side(up, "high", "low"),
                     s.length(metres(std::abs(right.value()))), side(right, "right", "left"),
                     slope(line.up_slope), slope(line.right_slope));
}

std::string judged_text(const AlignmentSheet& file, const AlignmentFinding& f, const Shown& s, bool colour) {
  TextTable table({Align::left, Align::right, Align::right, Align::right, Align::left});
  table.add({"warm, at the coupling", "found", "standard doubt", "tolerance", ""});
  const auto& o = f.offset;
  const auto& a = f.angularity;
  table.add({"offset", s.length(metres(o.value)), o.u ? s.length(metres(*o.u)) : "not known",
             file.offset_tolerance.text, verdict_word(code(o.outcome), colour)});
  table.add({"angularity", s.slope(radians(a.value)), a.u ? s.slope(radians(*a.u)) : "not known",
             file.angularity_tolerance.text, verdict_word(code(a.outcome), colour)});
  return table.text();
}

std::string shims_of(const AlignmentSheet& file, const alignment::ShimPack& pack) {
  const std::string pieces = job::as_written(pack.shims, file.shims->stock);
  return pieces.empty() ? "no shim" : pieces;
}

std::string foot_text(const AlignmentSheet& file, const std::string& name, const FootPlan& plan,
                      const Shown& s) {
  const Length raise = plan.wanted.raise;
  const Length push = plan.wanted.push;
  std::string text =
      fmt::format("{} feet: {} {} (doubt {}), push {} to the {} (doubt {})\n", name,
                  raise.value() < 0 ? "lower" : "raise", s.length(metres(std::abs(raise.value()))),
                  s.length(plan.wanted.raise_u), s.length(metres(std::abs(push.value()))),
                  side(push, "right", "left"), s.length(plan.wanted.push_u));
  if (plan.pack)
    text += fmt::format("  {}: {}; {} more would be exact\n",
                        plan.replaces ? "pack under each foot" : "add under each foot",
                        shims_of(file, *plan.pack), s.length(plan.pack->left, Sign::always));
  if (plan.possible.base_bound)
    text +=
        "  base-bound: not so many shims there to take out; lift the other machine, or machine base or "
        "feet\n";
  if (plan.possible.bolt_bound)
    text += "  bolt-bound: the bolts' play ends before; move the other machine too, or open the holes\n";
  return text;
}

std::string moves_text(const AlignmentSheet& file, const AlignmentFinding& f, const Shown& s) {
  std::string text = "\nMoves of the moved machine, cold:\n" + foot_text(file, "Front", f.front, s) +
                     foot_text(file, "Back", f.back, s);
  return text +
         fmt::format("After them, by calculation, warm: offset {}, angularity {}: {}\n",
                     s.length(f.after.offset()), s.slope(f.after.angularity()),
                     f.after_within ? "within tolerance; sweep again to prove it" : "still out of tolerance");
}

std::string soft_foot_text(const AlignmentSheet& file, const AlignmentFinding& f, const Shown& s) {
  if (!f.soft_foot) return "";
  if (f.soft_foot->soft.empty())
    return fmt::format("\nNo foot is soft (none springs more than {}; habit of the trade).\n",
                       s.length(file.soft_foot_limit));
  std::string text = "\nSoft feet, softest first:\n";
  for (const auto foot : f.soft_foot->soft)
    text += fmt::format("  {}: springs {}\n", alignment::word_for(foot),
                        s.length((*file.soft_foot)[static_cast<std::size_t>(foot)]));
  if (f.soft_foot->rocks) text += "  Both feet of a diagonal: the machine rocks on the other two.\n";
  text += fmt::format("Shim the {} foot by {}", alignment::word_for(f.soft_foot->soft.front()),
                      s.length(f.soft_foot->shim));
  if (f.soft_shim) text += fmt::format(" ({})", shims_of(file, *f.soft_shim));
  return text + ", tighten, and read all four again: one foot changes the others.\n";
}

std::string caution_text() {
  return "\n" +
         wrapped(
             "Caution: driver locked out and tagged, and the pump's valves closed, before a guard or a "
             "coupling "
             "comes off. Lift with a jack or jack bolts made for it, never with a hand or a shim under a "
             "raised foot. Turn both shafts by hand only. Guard back on before it runs. Where the site or "
             "the law says more, that holds.",
             text_width);
}

}  // namespace

std::string align_text(const AlignQuestion& q, const AlignmentFinding& f, bool colour) {
  const AlignmentSheet& file = q.align;
  const Shown s(file);
  std::string text = fmt::format("{}: {}\n\n", shown_name(q.file), one_line(file.name));
  text += wrapped(fmt::format("{}  {}", verdict_word(f.verdict, colour), reason_text(file, f.reason)),
                  text_width);
  text += "\n" + judged_text(file, f, s, colour) + "\n" + dials_text(file, f, s) + "\n";
  text += fmt::format("cold  {}\nwarm  {}\n", line_text(f.cold, s), line_text(f.warm, s)) + seen_text(file);
  text += soft_foot_text(file, f, s);
  return text + moves_text(file, f, s) + caution_text();
}

}  // namespace pumpwright

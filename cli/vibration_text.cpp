// What `pumpwright vibration` prints for people.
#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/verdict_word.h"
#include "cli/vibration_question.h"
#include "job/sheets/vibration_units.h"
#include "job/sheets/vibration_wording.h"

namespace pumpwright {
namespace {

constexpr std::size_t text_width = 110;

// Velocities in the system of what was read; mm/s where only a recording was.
class VibrationSheet {
 public:
  VibrationSheet(const VibrationQuestion& question, const VibrationAnswer& finding, bool colour)
      : q_(question), f_(finding), colour_(colour) {}

  std::string text() const {
    std::string out = fmt::format("{}: {}\n", shown_name(q_.file), one_line(q_.sheet.name));
    return out + verdict() + places() + zones() + tones() + strongest() + mind();
  }

 private:
  std::string velocity(Velocity v) const { return job::velocity_text(q_.sheet, v); }

  std::string reason() const {
    if (f_.reason == "limit-unconfirmed")
      return "the zones' figures are remembered: compare them with ISO 10816-7 and say so in confirmed_by";
    if (f_.reason == "inside-guarded")
      return "every place is fit for unrestricted running, the meter's doubt included";
    if (f_.reason == "outside-guarded") return "a place is proven to be beyond unrestricted running (zone B)";
    return "the limit of unrestricted running lies inside a reading's doubt: a better meter, or a longer "
           "recording";
  }

  std::string verdict() const {
    if (f_.verdict.empty()) return "\n  Without category and power no zone is known.\n";
    return fmt::format("\n{}  overall velocity\n", verdict_word(f_.verdict, colour_)) +
           wrapped(reason(), text_width, 2);
  }

  std::string places() const {
    TextTable table({Align::left, Align::right, Align::left, Align::left});
    table.add({"place", "r.m.s.", "", f_.limits ? "zone" : ""});
    for (const auto& place : f_.places)
      table.add({one_line(place.place), velocity(place.rms), "± " + velocity(place.u * 2.0),
                 place.zone ? std::string(vibration::word_for(*place.zone)) : ""});
    return "\n" + table.text(2);
  }

  std::string zones() const {
    std::string out = fmt::format("Band {:g} Hz to {:g} Hz.", f_.band.least.value(), f_.band.most.value());
    if (f_.limits)
      out += fmt::format(
          " Zones end at A {}, B {}, C {} (ISO 10816-7, remembered{}).", velocity(f_.limits->a_to_b),
          velocity(f_.limits->b_to_c), velocity(f_.limits->c_to_d),
          q_.sheet.confirmed_by.empty() ? "" : ", confirmed by " + one_line(q_.sheet.confirmed_by));
    return wrapped(out, text_width, 2);
  }

  std::string tones() const {
    if (!f_.signal) return "";
    const auto& s = f_.signal->spectrum;
    std::string out = fmt::format(
        "\nTones that stand out, by velocity\n  Welch, {} window, {} stretches, lines "
        "{:.3g} Hz apart.\n",
        vibration::word_for(q_.sheet.signal->asked.settings.window), s.segments, s.line_spacing.value());
    if (f_.signal->tones.empty()) return out + "  None.\n";
    TextTable table({Align::right, Align::right, Align::left, Align::left});
    table.add({"at", "r.m.s.", "", "may be"});
    for (const auto& tone : f_.signal->tones) {
      table.add({fmt::format("{:.2f} Hz", tone.tone.at.value()), velocity(tone.rms),
                 "± " + velocity(tone.u * 2.0), job::may_be_text(tone).en});
    }
    return out + table.text(2);
  }

  std::string strongest() const {
    if (!f_.signal || f_.signal->tones.empty()) return "";
    const auto& may_be = f_.signal->tones.front().may_be;
    if (may_be.empty())
      return "\nThe strongest is none of what is expected: look for a neighbour's machine, resonance, "
             "cavitation.\n";
    const std::string doubt =
        may_be.size() == 1 ? "" : "may be several things; a longer segment may tell them apart. The nearest ";
    return wrapped("The strongest " + doubt + "points to " + job::points_to(may_be.front().of).en,
                   text_width);
  }

  static std::string mind() {
    return "\nMind\n" + wrapped(
                            "Guards on, no loose sleeves, sensor and cable clear of the coupling. Read at "
                            "rated speed and duty, "
                            "warm, filled and vented, and once with the pump stopped: what is there then "
                            "comes from elsewhere. "
                            "Local rules come first. What a tone points to is common practice, not proof.",
                            text_width, 2);
  }

  const VibrationQuestion& q_;
  const VibrationAnswer& f_;
  bool colour_;
};

}  // namespace

std::string vibration_text(const VibrationQuestion& question, const VibrationAnswer& finding, bool colour) {
  return VibrationSheet(question, finding, colour).text();
}

}  // namespace pumpwright

// What `pumpwright rotor` tells people: verdicts with reason, source and what to do, then the figures.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <vector>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/rotor_report.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

using job::RotorSheet;
using rotor::Range;
using rotor::RotorAssessment;
using rotor::RotorReason;
using rotor::RotorVerdict;

constexpr std::size_t text_width = 110;
constexpr std::size_t line_rows = 6;

std::string percent(double share) {
  return fmt::format("{:.0f} %", 100 * share);
}

class Sheet {
 public:
  Sheet(const std::string& path, const RotorSheet& file, const RotorAssessment& finding, bool colour)
      : path_(path),
        file_(file),
        pump_(file.pump),
        finding_(finding),
        colour_(colour),
        system_(file.seal_face.unit->system == System::inch ? System::inch : System::metric) {}

  std::string text() const {
    return heading() + verdicts() + figures() + bearings() + whirl() + line() + grounds() + caution();
  }

 private:
  std::string shown(const AnyQuantity& quantity) const {
    return format_significant(quantity, suitable_unit(quantity.kind(), quantity.si(), system_), 3);
  }

  // Deflections are small whatever the shaft: µm or thou.
  std::string deflection(Length d) const {
    return system_ == System::inch ? format_decimals(d, unit_with_symbol("thou", Kind::length), 2)
                                   : format_decimals(d, unit_with_symbol("µm", Kind::length), 1);
  }

  static std::string tilt(Angle a) { return format_significant(a, unit_with_symbol("mrad", Kind::angle), 3); }

  static std::string hours(Time t) {
    const double h = t.value() / 3600;
    if (!(h < 1e6)) return "over 1 million h";
    return fmt::format("{:.0f} h", h);
  }

  static std::string rpm(Speed s) { return format_decimals(s, unit_with_symbol("rpm", Kind::speed), 0); }

  template <class Q, class Show>
  std::string range(const Range<Q>& r, Show show) const {
    const std::string least = show(r.least), expected = show(r.expected), most = show(r.most);
    return least == most ? expected : fmt::format("{} ({} … {})", expected, least, most);
  }

  std::string heading() const {
    return fmt::format("{}: {}, {}, {:g} of the flow at best efficiency\n", shown_name(path_),
                       one_line(file_.name), rpm(pump_.speed), file_.flow_ratio);
  }

  std::string value_of(const RotorVerdict& v) const {
    const auto between = [](const std::string& least, const std::string& most) {
      return least + " … " + most;
    };
    if (v.what == "deflection")
      return between(deflection(finding_.seal_deflection.least), deflection(finding_.seal_deflection.most));
    if (v.what == "life") return between(hours(finding_.system_life.least), hours(finding_.system_life.most));
    return finding_.separation ? percent(*finding_.separation) : "none near";
  }

  std::string limit_of(const RotorVerdict& v) const {
    if (v.what == "deflection") return "at most " + deflection(pump_.limits.deflection);
    if (v.what == "life") return "at least " + hours(*pump_.limits.life);
    return "at least " + percent(pump_.limits.separation) + " of the speed";
  }

  static std::string title_of(const RotorVerdict& v) {
    if (v.what == "deflection") return "deflection at the seal's faces";
    if (v.what == "life") return "life of both bearings together, L10";
    return "distance of the speed from a critical speed";
  }

  const std::string& source_of(const RotorVerdict& v) const {
    if (v.what == "deflection") return pump_.limits.deflection_source;
    if (v.what == "life") return pump_.limits.life_source;
    return pump_.limits.separation_source;
  }

  std::string reason_of(const RotorVerdict& v) const {
    switch (v.reason) {
      case RotorReason::inside_at_most:
        return "It keeps to the limit even where the radial thrust is the most it may be.";
      case RotorReason::outside_at_least:
        return "It does not keep to the limit even where the radial thrust is the least it may be.";
      case RotorReason::thrust_straddles_limit:
        return "The limit lies inside what the radial thrust may do: its factor is not known well enough.";
      case RotorReason::far_enough:
        return "No forward critical speed is near.";
      case RotorReason::too_near:
        return "Unbalance would shake the rotor there.";
      case RotorReason::stiffness_not_given:
        return "The stiffness of a bearing is not given. Held rigidly, critical speeds are the highest they "
               "can be.";
      case RotorReason::axial_load_not_given:
        return "It would do without thrust along the shaft, but the thrust is not given.";
      case RotorReason::beyond_life_formula:
        return "A bearing may carry over half its dynamic rating, where the life formula does not hold.";
    }
    return "";
  }

  std::string next_of(const RotorVerdict& v) const {
    if (v.outcome == Outcome::pass) return "";
    switch (v.reason) {
      case RotorReason::thrust_straddles_limit:
        return "Take the factor from a test or the maker's sheet (operating_point.radial_factor), or judge "
               "at a "
               "flow nearer to best efficiency.";
      case RotorReason::stiffness_not_given:
        return finding_.stiffness_needed
                   ? fmt::format(
                         "Give the stiffness of both bearings. The first critical speed stays clear when "
                         "each "
                         "is stiffer than {}.",
                         shown(*finding_.stiffness_needed))
                   : "Rigid bearings would not keep it clear either: a thicker or shorter shaft end would.";
      case RotorReason::too_near:
        return "Change the speed, or thicken or shorten the shaft's overhang; stiffer bearings raise the "
               "critical "
               "speed.";
      case RotorReason::axial_load_not_given:
        return "Give axial_load: the thrust of the whole rotor, 0 N where it is balanced.";
      case RotorReason::beyond_life_formula:
        return "Take a bearing of higher rating, or find the load out more closely.";
      default:
        return v.what == "life"
                   ? "Take bearings of higher rating, or run nearer to best efficiency."
                   : "Thicken the shaft, shorten its overhang, or run nearer to best efficiency.";
    }
  }

  std::string verdicts() const {
    TextTable table({Align::left, Align::left, Align::right, Align::left});
    for (const RotorVerdict& v : finding_.verdicts)
      table.add({verdict_word(code(v.outcome), colour_), title_of(v), value_of(v), limit_of(v)});
    const auto lines = table.lines();
    std::string text = "\n";
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const RotorVerdict& v = finding_.verdicts[i];
      text += lines[i] + "\n" + wrapped(reason_of(v), text_width, 10) + wrapped(next_of(v), text_width, 10) +
              wrapped("source: " + source_of(v), text_width, 10);
    }
    return text;
  }

  std::string figures() const {
    const auto force = [this](Force f) { return shown(f); };
    const auto length = [this](Length d) { return deflection(d); };
    const rotor::RadialFactor& k = pump_.pump.factor;
    TextTable table({Align::left, Align::left});
    table.add({"radial thrust factor", fmt::format("{:.3f} ({:.3f} … {:.3f})", k.expected, k.least, k.most)});
    table.add(
        {"radial thrust",
         range(Range<Force>{finding_.thrust.least, finding_.thrust.expected, finding_.thrust.most}, force)});
    table.add({"pull of the residual unbalance", shown(finding_.unbalance_force)});
    table.add({"deflection at the seal's faces", range(finding_.seal_deflection, length)});
    table.add({"tilt of the shaft there", range(finding_.seal_tilt, tilt)});
    table.add({"deflection at the impeller", range(finding_.impeller_deflection, length)});
    table.add({"tilt there", range(finding_.impeller_tilt, tilt)});
    return "\nExpected (least … most)\n" + table.text(2);
  }

  std::string bearings() const {
    TextTable table({Align::left, Align::left, Align::right, Align::left, Align::left});
    table.add({"bearing", "load across", "along", "equivalent load P", "life L10"});
    const auto force = [this](Force f) { return shown(f); };
    for (std::size_t i = 0; i < finding_.bearings.size(); ++i) {
      const rotor::BearingFinding& b = finding_.bearings[i];
      table.add({one_line(file_.bearing_names[i]), range(b.radial, force), shown(b.axial),
                 range(b.equivalent, force), range(b.life, hours)});
    }
    table.add({"both together", "", "", "", range(finding_.system_life, hours)});
    return "\nBearings\n" + table.text(2);
  }

  std::string whirl() const {
    TextTable table({Align::left, Align::right, Align::right});
    table.add({"", "forward", "backward"});
    std::array<std::vector<Speed>, 2> modes;
    for (const rotor::WhirlMode& mode : finding_.modes)
      modes[mode.forward ? 0 : 1].push_back(mode.frequency);
    const auto rows = [&](const std::string& name, const std::vector<Speed>& forward,
                          const std::vector<Speed>& backward) {
      for (std::size_t i = 0; i < std::max(forward.size(), backward.size()); ++i)
        table.add({fmt::format("{} {}", name, i + 1), i < forward.size() ? rpm(forward[i]) : "none",
                   i < backward.size() ? rpm(backward[i]) : "none"});
    };
    rows("whirls by itself at this speed with", modes[0], modes[1]);
    rows("critical speed", finding_.critical.forward, finding_.critical.backward);
    return "\nWhirl, undamped and dry (unbalance excites forward ones only)\n" + table.text(2);
  }

  std::size_t nearest_point(Length at) const {
    const auto& points = finding_.line;
    const auto distance = [at](const rotor::BentPoint& p) { return std::fabs((p.at - at).value()); };
    const auto nearest = std::min_element(points.begin(), points.end(), [&](const auto& a, const auto& b) {
      return distance(a) < distance(b);
    });
    return static_cast<std::size_t>(nearest - points.begin());
  }

  // Rows of the bent line: the places that have a name, and some evenly between.
  std::map<std::size_t, std::string> rows_of_line() const {
    std::map<std::size_t, std::string> rows;
    for (std::size_t row = 0; row <= line_rows; ++row)
      rows[(finding_.line.size() - 1) * row / line_rows];
    rows[nearest_point(pump_.rotor.impeller.at)] = "impeller";
    rows[nearest_point(pump_.seal_face)] = "seal's faces";
    for (std::size_t i = 0; i < file_.bearing_names.size(); ++i)
      rows[nearest_point(pump_.rotor.supports[i].at)] = "bearing, " + one_line(file_.bearing_names[i]);
    return rows;
  }

  std::string line() const {
    TextTable table({Align::right, Align::right, Align::right, Align::right, Align::left});
    table.add({"from the impeller end", "by thrust", "by weight", "all, at most", ""});
    for (const auto& [row, name] : rows_of_line()) {
      const rotor::BentPoint& p = finding_.line[row];
      table.add({format_significant(p.at, *file_.seal_face.unit, 4), deflection(p.thrust),
                 deflection(p.weight), deflection(p.most), name});
    }
    return "\nThe bent line\n" + table.text(2);
  }

  std::string grounds() const {
    std::vector<std::string> grounds{pump_.pump.factor.source, "Shaft: " + pump_.rotor.material.source + "."};
    if (file_.inertia_estimated)
      grounds.emplace_back(
          "The impeller's moments of inertia are those of a solid disk of its outlet (estimate).");
    const bool rigid = !pump_.rotor.supports[0].stiffness || !pump_.rotor.supports[1].stiffness;
    if (rigid)
      grounds.emplace_back(
          "A bearing without stiffness is taken as rigid: a real one adds to the deflection.");
    if (!pump_.axial_load) grounds.emplace_back("Thrust along the shaft is not given: lives are without it.");
    grounds.emplace_back(
        "Bearing clearance, the wear rings' hold, the liquid's mass and pulsating thrust are not in it. "
        "Lives are of "
        "fatigue alone (ISO 281, without a_ISO).");
    std::string text = "\nWhat these numbers rest on\n";
    for (const std::string& ground : grounds)
      text += wrapped(one_line(ground), text_width, 2);
    return text;
  }

  static std::string caution() {
    return "\n" +
           wrapped(
               "Computed, not measured. Before a hand goes near a shaft: driver locked out and proven dead, "
               "guards back on before it turns, and the local safety rules first.",
               text_width, 0);
  }

  const std::string& path_;
  const RotorSheet& file_;
  const rotor::RotorCase& pump_;
  const RotorAssessment& finding_;
  bool colour_;
  System system_;
};

}  // namespace

std::string rotor_text(const std::string& path, const RotorSheet& file, const RotorAssessment& finding,
                       bool colour) {
  return Sheet(path, file, finding, colour).text();
}

}  // namespace pumpwright

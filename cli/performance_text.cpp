// What `pumpwright performance` tells people.
#include <cmath>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/performance_question.h"
#include "cli/verdict_word.h"
#include "job/sheets/performance_wording.h"

namespace pumpwright {
namespace {

using hydraulics::GradeReason;
using job::chance_text;
using job::percent_text;
using job::signed_percent;

constexpr std::size_t text_width = 110;

std::string curve_text(const hydraulics::CurveChoice& choice) {
  if (choice.kind == hydraulics::CurveKind::pchip) return "shape-preserving interpolant through every point";
  return fmt::format("least squares, degree {}", choice.degree);
}

class Sheet {
 public:
  Sheet(const PerformanceQuestion& q, const PerformanceAnswer& answer, bool colour)
      : q_(q),
        f_(answer.finding),
        sampled_(answer.sampled),
        units_(job::units_of(q.sheet.test)),
        colour_(colour) {}

  std::string text() const {
    return head() + points() + curves() + acceptance() + remedy() + driver() + npsh() + cautions();
  }

 private:
  std::string head() const {
    std::string text = fmt::format("{}: {}\n", shown_name(q_.file), one_line(q_.sheet.name));
    const auto& test = q_.sheet.test;
    text += fmt::format("  {} points, {}, at the rated {:.0f} rpm where not said otherwise\n",
                        test.test.points.size(), test.liquid, test.test.rated_speed.value() * 30 / pi);
    if (const auto* agreed = agreed_grade(q_.sheet, f_)) {
      text += fmt::format("\n{}  {} at {}, {}\n", verdict_word(code(agreed->verdict), colour_),
                          job::grade_text(q_.sheet, *agreed).en,
                          units_.flow_text(q_.sheet.guarantee->promised.flow.value()),
                          units_.head_text(q_.sheet.guarantee->promised.head.value()));
      text += wrapped(job::reason_text(f_, *agreed).en, text_width, 2);
    }
    return text;
  }

  std::string points() const {
    const bool power = f_.points.front().size() == 4;
    TextTable table({Align::right, Align::right, Align::right, Align::right, Align::right, Align::right,
                     Align::right, Align::right});
    table.add({"flow", "suction", "discharge", "total head", power ? "shaft power" : "",
               power ? "efficiency" : "", "wire to water", "NPSH available"});
    for (std::size_t i = 0; i < f_.points.size(); ++i) {
      const auto& figures = f_.points[i];
      const auto& r = f_.model.results()[i];
      table.add({units_.flow_text(r.flow.value()), one_line(q_.sheet.test.suction[i].text),
                 one_line(q_.sheet.test.discharge[i].text), units_.head_text(figures[0]),
                 power ? units_.power_text(figures[2]) : "", power ? percent_text(figures[3]) : "",
                 r.overall ? percent_text(*r.overall) : "-", units_.head_text(r.suction_head.value())});
    }
    std::string text = "\nAs tested (± is 95 % coverage)\n" + table.text(2);
    text += q_.sheet.test.one_gauge ? "  One gauge served both sides: its error drops out of the difference "
                                      "as far as it is constant.\n"
                                    : "  An instrument's error counts once for all its readings; two gauges "
                                      "are taken as independent.\n";
    return text;
  }

  std::string curves() const {
    const auto& test = f_.model.test();
    TextTable table({Align::left, Align::left});
    std::string head = curve_text(test.head_curve);
    if (f_.model.head_scatter_m() > 0)
      head += fmt::format("; points lie off it by {} more than their readings explain",
                          units_.head_text(f_.model.head_scatter_m()));
    else if (f_.model.head_dof() > 0)
      head += "; points lie off it no more than their readings explain";
    table.add({"head curve", head});
    if (f_.model.curves().power) table.add({"power curve", curve_text(test.power_curve)});
    if (f_.best) {
      table.add({"best efficiency", percent_text(f_.best_figures[2])});
      table.add({"  at a flow of", units_.flow_text(f_.best_figures[0])});
      table.add({"  and a head of", units_.head_text(f_.best_figures[1])});
    }
    if (f_.shape)
      table.add({"specific speed there",
                 fmt::format("{:.0f} (US: rpm, gpm, ft), {:.1f} (metric: rpm, m³/s, m), type "
                             "number {:.3f}",
                             f_.shape->us, f_.shape->metric, f_.shape->type)});
    return "\nAt the rated speed\n" + table.text(2);
  }

  std::string acceptance() const {
    if (!f_.acceptance) return "\nNo guarantee in the file: nothing is judged.\n";
    const auto& a = *f_.acceptance;
    const auto& promised = q_.sheet.guarantee->promised;
    TextTable figures({Align::left, Align::left, Align::left});
    figures.add({"head at the guaranteed flow", units_.head_text(a.head_at_flow),
                 "promised " + units_.head_text(promised.head.value()) + ", " +
                     signed_percent(a.head_at_flow.value / promised.head.value() - 1)});
    if (a.flow_at_head)
      figures.add({"flow at the guaranteed head", units_.flow_text(*a.flow_at_head),
                   "promised " + units_.flow_text(promised.flow.value()) + ", " +
                       signed_percent(a.flow_at_head->value / promised.flow.value() - 1)});
    if (a.efficiency)
      figures.add({"efficiency on the line from the origin", percent_text(*a.efficiency),
                   promised.efficiency ? "promised " + percent_text(*promised.efficiency) : ""});
    if (a.power)
      figures.add(
          {"shaft power there", units_.power_text(*a.power),
           promised.shaft_power ? "promised " + units_.power_text(promised.shaft_power->value()) : ""});
    return "\nAt the guarantee point\n" + figures.text(2) + grades() + rule_text();
  }

  std::string tolerance_text(const hydraulics::Tolerance& t) const {
    return fmt::format("Q {:+g}…{:+g} %, H {:+g}…{:+g} %", std::round(1e4 * t.flow_low) / 100,
                       std::round(1e4 * t.flow_high) / 100, std::round(1e4 * t.head_low) / 100,
                       std::round(1e4 * t.head_high) / 100);
  }

  std::string grades() const {
    TextTable table({Align::left, Align::left, Align::left, Align::right, Align::right});
    table.add({"grade", "verdict", "tolerances", "chance it is met", sampled_ ? "drawn" : ""});
    for (std::size_t i = 0; i < f_.acceptance->grades.size(); ++i) {
      const auto& g = f_.acceptance->grades[i];
      std::string word = verdict_word(code(g.verdict), colour_);
      if (g.reason == GradeReason::limit_unconfirmed)
        word += fmt::format(" (by the figures: {})", code(g.by_figures));
      table.add({q_.sheet.guarantee->rule.own ? "own" : std::string(hydraulics::word_for(g.grade)), word,
                 tolerance_text(g.tolerance), chance_text(g.chance),
                 sampled_ ? chance_text(sampled_->grades[i].chance.value) : ""});
    }
    return "\nEvery grade\n" + table.text(2);
  }

  std::string rule_text() const {
    const auto& g = *q_.sheet.guarantee;
    std::string text =
        g.rule.kind == hydraulics::GradeRule::Kind::guarded
            ? fmt::format(
                  "Guarded: pass and fail are proven to {:g} % against the measurement's uncertainty. The "
                  "standard itself lets the value decide, since its tolerances hold the measurement's share: "
                  "rule \"standard\".",
                  100 * g.rule.probability)
            : std::string(
                  "The standard's rule: the value decides, as long as the measurement is no coarser than the "
                  "grade permits (permitted uncertainties remembered).");
    text +=
        " The cross at the guarantee point is met when the curve cuts one of its bars; power and efficiency "
        "are "
        "taken where the curve meets the line from the origin.";
    if (!g.rule.own)
      text += fmt::format(" Tolerances: {}, {}.", hydraulics::grades_source,
                          g.confirmed_by.empty() ? "remembered" : "confirmed by " + one_line(g.confirmed_by));
    if (sampled_)
      text +=
          fmt::format(" Drawn: {} draws, seed {}; all criteria together.", sampled_->samples, sampled_->seed);
    return wrapped(text, text_width, 2);
  }

  std::string remedy() const {
    if (!f_.remedy) return "";
    return "\nTo meet the head exactly\n" + wrapped(job::remedy_text(q_.sheet, f_).en, text_width, 2);
  }

  std::string driver() const {
    if (!f_.driver) return "";
    return "\nThe motor where it works hardest\n" + wrapped(job::driver_text(q_.sheet, f_).en, text_width, 2);
  }

  std::string npsh() const {
    if (!f_.npsh3 && !f_.npsh_available) return "";
    TextTable table({Align::left, Align::left});
    if (f_.npsh3) {
      table.add({"NPSH3 (head 3 % down)", units_.head_text(f_.npsh3->npsh_m)});
      table.add({"  interpolated between", units_.head_text(f_.npsh3->next_below_m) + " and " +
                                               units_.head_text(f_.npsh3->next_above_m)});
    }
    if (f_.suction_shape)
      table.add(
          {"suction specific speed",
           fmt::format("{:.0f} (US: rpm, gpm, ft), {:.1f} (metric); flow of the whole impeller, one eye",
                       f_.suction_shape->us, f_.suction_shape->metric)});
    if (f_.npsh_available) table.add({"NPSH the plant offers", units_.head_text(f_.npsh_available->value())});
    if (f_.npsh3 && f_.npsh_available) {
      const double margin_m = f_.npsh_available->value() - f_.npsh3->npsh_m.value;
      table.add({"margin", fmt::format("{}, ratio {:.2f}", units_.head_text(margin_m),
                                       f_.npsh_available->value() / f_.npsh3->npsh_m.value)});
      table.add({"  usual for water",
                 "ratio 1.1 to 1.5, or 1.5 m, the greater (read in a dictionary of the trade; no "
                 "standard's table was at hand)"});
    }
    return "\nSuction\n" + table.text(2);
  }

  std::string cautions() const {
    std::string text = "\nMind\n";
    for (const auto& caution : f_.cautions)
      text += wrapped(caution.en, text_width, 2);
    if (q_.sheet.test.test.points.front().supply || q_.sheet.test.test.points.front().input_power)
      text += wrapped(
          "A clamp meter on the supply side of a variable-speed drive reads wrong, and so does power factor "
          "there: "
          "take the drive's own figure or a meter made for it.",
          text_width, 2);
    text += wrapped(
        "Prove the turning direction with the casing filled and vented. Guards on before the start; no loose "
        "sleeves. "
        "Hot liquid and stored pressure hurt: shut off, drain and prove zero before opening. Local rules "
        "come first.",
        text_width, 2);
    return text;
  }

  const PerformanceQuestion& q_;
  const job::PerformanceFinding& f_;
  const std::optional<hydraulics::SampledAcceptance>& sampled_;
  job::PumpUnits units_;
  bool colour_;
};

}  // namespace

std::string performance_text(const PerformanceQuestion& q, const PerformanceAnswer& answer, bool colour) {
  return Sheet(q, answer, colour).text();
}

}  // namespace pumpwright

// What `pumpwright trim` prints, for people and as JSON.
#include <cmath>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/trim_json.h"
#include "cli/trim_question.h"
#include "cli/verdict_word.h"
#include "job/sheets/pump_units.h"

namespace pumpwright {
namespace {

using hydraulics::Cut;
using hydraulics::CutRule;
using job::chance_text;
using job::percent_text;
using job::PumpUnits;

constexpr std::size_t text_width = 110;

std::string headline(TrimAdvice advice, bool colour) {
  switch (advice) {
    case TrimAdvice::cut:
      return verdict_word("pass", "CUT, IN STEPS", colour);
    case TrimAdvice::leave:
      return verdict_word("unproven", "LEAVE IT", colour);
    case TrimAdvice::too_little:
      return verdict_word("fail", "DO NOT CUT", colour);
    case TrimAdvice::outside_rule:
      return verdict_word("unproven", "OUTSIDE THE RULE", colour);
    case TrimAdvice::out_of_reach:
      return verdict_word("unproven", "OUT OF REACH", colour);
  }
  return "";
}

std::string part_text(const TrimQuestion& q, Length diameter) {
  return fmt::format("{:.1f} %", 100 * (1 - static_cast<double>(diameter / q.sheet.impeller.diameter)));
}

std::string advice_text(const TrimQuestion& q, const TrimFinding& f, const PumpUnits& u) {
  const auto& plan = f.plan;
  switch (f.advice) {
    case TrimAdvice::cut:
      return fmt::format(
          "Turn to {} ({} off), run the test again, then plan the second cut from that test. {} would meet "
          "the duty by "
          "the rule, but with an even chance of ending below it. A wrong cut can not be undone.",
          u.diameter_text(plan.first->diameter.value()), part_text(q, plan.first->diameter),
          u.diameter_text(plan.nominal->diameter.value()));
    case TrimAdvice::leave:
      return fmt::format(
          "Leave it: even uncut the chance of giving less than the duty is {}, over the {} allowed. A "
          "finer test may show room.",
          chance_text(plan.undershoot_now), percent_text(q.sheet.settings.undershoot, 0));
    case TrimAdvice::too_little:
      return "Do not cut: the pump gives less than the duty as it is. Look at clearances, turning direction, "
             "air and the "
             "gauges, then at a larger impeller or more speed.";
    case TrimAdvice::outside_rule:
      return fmt::format(
          "The rule does not reach that far ({}). Its limit here is {}: turn no further than that, test, "
          "and plan again from the new test. A wrong cut can not be undone.",
          hydraulics::word_for(plan.range), u.diameter_text(f.limit.value()));
    case TrimAdvice::out_of_reach:
      return "No cut meets this duty within the tested flows: test more of the curve.";
  }
  return "";
}

void add_cut(TextTable& table, const std::string& name, const std::optional<Cut>& cut, const PumpUnits& u) {
  if (!cut) {
    table.add({name, "none"});
    return;
  }
  table.add({name, u.diameter_text(cut->diameter.value()), u.head_text(cut->head_m),
             chance_text(cut->undershoot), cut->power_w ? u.power_text(*cut->power_w) : "-",
             cut->power_peak_w ? u.power_text(*cut->power_peak_w) : "-"});
}

std::string cuts_text(const TrimQuestion& q, const TrimFinding& f, const PumpUnits& u) {
  TextTable table({Align::left, Align::right, Align::right, Align::right, Align::right, Align::right});
  table.add({"", "diameter", "head at the duty", "chance below it", "power there", "most power"});
  table.add({"as tested", u.diameter_text(q.sheet.impeller.diameter.value()), u.head_text(f.plan.head_now_m),
             chance_text(f.plan.undershoot_now)});
  add_cut(table, "first cut", f.plan.first, u);
  add_cut(table, "by the rule", f.plan.nominal, u);
  return table.text(2);
}

std::string rule_text(const TrimQuestion& q, const TrimFinding& f, const PumpUnits& u) {
  const auto& s = q.sheet.settings;
  std::string text = s.rule == CutRule::affinity ? "Rule: affinity, flow as D, head as D² (read; good for US "
                                                   "specific speeds to 2500, read; cuts to 20 % of the "
                                                   "diameter, common practice)."
                                                 : "Rule: reduced diameter of ISO 9906, R = sqrt((D'² - "
                                                   "D1²)/(D² - D1²)) (formula remembered; cuts to 5 % and "
                                                   "type numbers to 1.5, read).";
  if (f.plan.other_rule_diameter)
    text +=
        fmt::format(" The other rule would say {}.", u.diameter_text(f.plan.other_rule_diameter->value()));
  text +=
      fmt::format(" Shape: {:.0f} (US: rpm, gpm, ft), {:.1f} (metric), type number {:.3f}{}.",
                  f.plan.shape.us, f.plan.shape.metric, f.plan.shape.type,
                  f.plan.shape_at_best ? "" : ", taken at the duty: the best efficiency point is not known");
  text += fmt::format(
      " The rule's own standard uncertainty is taken as {} of the change in head (our own figure: no "
      "published correction could be read).",
      percent_text(s.rule_doubt, 0));
  if (!f.second_is_worth)
    text += " The second cut would be smaller than a step worth the set-up: the first cut is the last.";
  return wrapped(text, text_width, 2);
}

std::string after_text() {
  return wrapped(
             "Power falls with R³ where efficiency holds (ISO 9906: to 3 % of cut and type number 1.0, "
             "read); deeper cuts "
             "cost efficiency, which is not counted here. NPSH required at a given flow does not fall with "
             "the diameter: "
             "check the margin at the new duty. Keep the vanes' overlap and the shroud as the sheet says.",
             text_width, 2) +
         wrapped(
             "Balance the impeller again after every cut. In the lathe: shroud and vanes are an interrupted "
             "cut; clamp, "
             "guard, eye protection, no gloves or loose sleeves. Local rules come first.",
             text_width, 2);
}

}  // namespace

std::string trim_text(const TrimQuestion& q, const TrimFinding& f, bool colour) {
  const PumpUnits u = job::units_of(q.sheet.test);
  return fmt::format("{}: {}\n  duty {} at {}\n\n{}\n{}\n{}\nThe rule\n{}\nMind\n{}", shown_name(q.file),
                     one_line(q.sheet.name), u.head_text(q.sheet.duty.head.value()),
                     u.flow_text(q.sheet.duty.flow.value()), headline(f.advice, colour),
                     wrapped(advice_text(q, f, u), text_width, 2), cuts_text(q, f, u), rule_text(q, f, u),
                     after_text());
}

std::string trim_report_json(const TrimQuestion& q, const TrimFinding& f) {
  OrderedJson json = {{"file", q.file},
                      {"name", q.sheet.name},
                      {"rule", hydraulics::word_for(q.sheet.settings.rule)},
                      {"advice", word_for(f.advice)},
                      {"diameter_m", json_number(q.sheet.impeller.diameter.value())},
                      {"duty_flow_m3_s", json_number(q.sheet.duty.flow.value())},
                      {"duty_head_m", json_number(q.sheet.duty.head.value())},
                      {"limit_diameter_m", json_number(f.limit.value())},
                      {"second_is_worth", f.second_is_worth}};
  json["plan"] = trim_json(f.plan);
  return json_text(json);
}

}  // namespace pumpwright

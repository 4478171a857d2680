// What `pumpwright pressure-hold` prints, for people and as JSON.
#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/json_values.h"
#include "cli/pressure_hold_question.h"
#include "cli/trim_json.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"
#include "job/sheets/pump_units.h"

namespace pumpwright {
namespace {

using hydraulics::Figure;
using job::chance_text;
using job::HoldMedium;
using job::HoldReason;
using job::PressureHoldFinding;

constexpr std::size_t text_width = 110;

std::string gauge_text(const PressureHoldQuestion& q, GaugePressure p) {
  return format_significant(p, *q.sheet.pressure_unit, 4);
}

std::string step_text(const PressureHoldQuestion& q, const Figure& f) {
  const bool inch = q.sheet.pressure_unit->system == System::inch;
  const Unit& unit = unit_with_symbol(inch ? "psi" : "bar", Kind::pressure_difference);
  return fmt::format("{} ± {}", format_significant(pascals(f.value), unit, 3),
                     format_significant(pascals(expanded_95(f)), unit, 2));
}

std::string leak_text(const Figure& f) {
  const Unit& unit = unit_with_symbol("mL/min", Kind::volume_flow);
  return fmt::format("{} ± {}", format_significant(cubic_metres_per_second(f.value), unit, 3),
                     format_significant(cubic_metres_per_second(expanded_95(f)), unit, 2));
}

std::string energy_text(Energy e) {
  return e.value() >= 1000 ? fmt::format("{:.3g} kJ", e.value() / 1000) : fmt::format("{:.3g} J", e.value());
}

std::string reason_text(const PressureHoldQuestion& q, const PressureHoldFinding& f) {
  switch (f.reason) {
    case HoldReason::planned:
      return "no readings yet; this is the plan of the test";
    case HoldReason::leak_seen:
      return "a leak was seen: let the pressure off, prove zero, mend, and test again";
    case HoldReason::leak_over_limit:
      return "the leak is proven to be over its limit: let the pressure off, prove zero, find it, and test "
             "again";
    case HoldReason::leak_under_limit:
      return "the leak is proven to keep to its limit";
    case HoldReason::no_leak_seen:
      return "no leak was seen over the whole hold; no leak limit is stated";
    case HoldReason::leak_in_doubt:
      return "the limit lies inside the uncertainty: hold longer, measure the liquid's temperature better, "
             "use a finer "
             "gauge, or get the air out";
    case HoldReason::not_vented:
      return "the casing was not vented: trapped air keeps the gauge up while liquid leaks. Vent at the top, "
             "repeat";
    case HoldReason::not_isolated:
      return "the source was not shut off: it keeps the gauge up. Isolate it, repeat";
    case HoldReason::too_short:
      return fmt::format("held for less than {:.0f} min", f.hold.least.value() / 60);
    case HoldReason::pressure_short:
      return fmt::format("the pressure started below {}", gauge_text(q, f.pressure.used));
    case HoldReason::over_rating:
      return "a part saw more than its rating: take it out of service and inspect it";
  }
  return "";
}

std::string pressure_text(const PressureHoldQuestion& q, const PressureHoldFinding& f) {
  TextTable table({Align::left, Align::left});
  table.add({"by the rule", fmt::format("{} ({}: {})", gauge_text(q, f.pressure.by_rule),
                                        hydraulics::word_for(q.sheet.rule), f.pressure.source)});
  for (const auto& part : q.sheet.parts)
    table.add({"rated", fmt::format("{}  {}", gauge_text(q, part.rating), one_line(part.name))});
  table.add({"test at", gauge_text(q, f.pressure.used)});
  table.add({"for at least", fmt::format("{:.0f} min ({}, {})", f.hold.least.value() / 60, f.hold.source,
                                         word_for(f.hold.known))});
  table.add({"gauge", fmt::format("{} full scale: tested at {:.0f} % of it",
                                  gauge_text(q, q.sheet.gauge_range), 100 * f.gauge_share)});
  return table.text(2);
}

std::string findings_text(const PressureHoldQuestion& q, const PressureHoldFinding& f) {
  if (!f.leak) return "";
  const auto& l = *f.leak;
  TextTable table({Align::left, Align::left});
  table.add({"the gauge fell by", step_text(q, l.drop_pa)});
  table.add({"of that by temperature", step_text(q, l.drop_by_heat_pa)});
  table.add({"by a leak", step_text(q, l.drop_by_leak_pa)});
  table.add({q.sheet.medium == HoldMedium::gas ? "leak, at the atmosphere" : "leak", leak_text(l.leak_m3_s)});
  if (q.sheet.leak_limit)
    table.add(
        {"limit", format_significant(*q.sheet.leak_limit, unit_with_symbol("mL/min", Kind::volume_flow), 3) +
                      ", chance that it is kept " + chance_text(f.chance)});
  return "\nThe readings (± is 95 % coverage)\n" + table.text(2);
}

std::string cautions_text(const PressureHoldQuestion& q, const PressureHoldFinding& f) {
  std::string text = "\nMind\n";
  const auto add = [&](const std::string& caution) { text += wrapped(caution, text_width, 2); };
  if (!f.pressure.limited_by.empty())
    add(fmt::format(
        "Held below the rule's {} because of {}: this is not the rule's full test. Blank the part off to "
        "make it one.",
        gauge_text(q, f.pressure.by_rule), one_line(f.pressure.limited_by)));
  if (f.gauge_share < 0.25 || f.gauge_share > 0.75)
    add("Use a gauge whose middle half holds the test pressure (range about twice it; common practice).");
  if (q.sheet.medium == HoldMedium::gas)
    add(fmt::format(
        "GAS: {} are stored at this pressure; the same casing full of water would hold a small part of it. "
        "A casing that bursts under gas kills. Test with liquid unless it can not be; otherwise a written "
        "procedure, relief valve, barrier, distance, steps with pauses, and nobody near.",
        energy_text(f.energy)));
  else
    add(fmt::format(
        "Stored at this pressure: {} in the liquid; in air it would be {}, {:.0f} times as much. Test with "
        "liquid, vent every high place, and keep gas out.",
        energy_text(f.energy), energy_text(f.energy_of_gas), f.energy_of_gas / f.energy));
  add("Relief valve set just over the test pressure, barrier, pressure up in steps, nobody in line with "
      "covers and "
      "plugs. Never tighten a joint under pressure. Cold liquid, no colder than the casing's material "
      "allows. Let the "
      "pressure off and prove zero before opening. Local codes come first.");
  if (q.sheet.medium == HoldMedium::liquid)
    add("A kelvin moves trapped water by bars: wait until casing and liquid are at one temperature.");
  return text;
}

OrderedJson leak_json(const std::optional<hydraulics::LeakFinding>& leak) {
  if (!leak) return nullptr;
  OrderedJson json;
  put_figure(json, "drop", "_Pa", leak->drop_pa);
  put_figure(json, "drop_by_temperature", "_Pa", leak->drop_by_heat_pa);
  put_figure(json, "drop_by_leak", "_Pa", leak->drop_by_leak_pa);
  put_figure(json, "leak", "_m3_s", leak->leak_m3_s);
  json["compliance_m3_Pa"] = json_number(leak->compliance_m3_pa);
  return json;
}

}  // namespace

std::string pressure_hold_text(const PressureHoldQuestion& q, const PressureHoldFinding& f, bool colour) {
  return fmt::format("{}: {}\n\n{}\n{}\nPressure and time\n{}{}{}", shown_name(q.file),
                     one_line(q.sheet.name),
                     verdict_word(q.sheet.test ? code(f.outcome) : "not-taken", colour),
                     wrapped(reason_text(q, f), text_width, 2), pressure_text(q, f), findings_text(q, f),
                     cautions_text(q, f));
}

std::string pressure_hold_json(const PressureHoldQuestion& q, const PressureHoldFinding& f) {
  const auto& m = q.sheet.stiffness;
  const bool liquid = q.sheet.medium == HoldMedium::liquid;
  OrderedJson json = {
      {"file", q.file},
      {"name", q.sheet.name},
      {"verdict", q.sheet.test ? OrderedJson(code(f.outcome)) : OrderedJson(nullptr)},
      {"reason", word_of(f.reason)},
      {"rule", hydraulics::word_for(q.sheet.rule)},
      {"pressure_by_rule_Pa", json_number(f.pressure.by_rule.value.value())},
      {"pressure_Pa", json_number(f.pressure.used.value.value())},
      {"limited_by",
       f.pressure.limited_by.empty() ? OrderedJson(nullptr) : OrderedJson(f.pressure.limited_by)},
      {"pressure_source", f.pressure.source},
      {"hold_s", json_number(f.hold.least.value())},
      {"hold_source", f.hold.source},
      {"gauge_share", json_number(f.gauge_share)},
      {"medium", liquid ? "liquid" : "gas"},
      {"bulk_modulus_Pa", liquid ? json_number(m.bulk_modulus.value()) : OrderedJson(nullptr)},
      {"expansion_1_K", liquid ? json_number(m.expansion_per_k) : OrderedJson(nullptr)},
      {"energy_J", json_number(f.energy.value())},
      {"energy_of_gas_J", json_number(f.energy_of_gas.value())},
      {"leak", leak_json(f.leak)},
      {"leak_limit_m3_s",
       q.sheet.leak_limit ? json_number(q.sheet.leak_limit->value()) : OrderedJson(nullptr)},
      {"chance", f.leak && q.sheet.leak_limit ? json_number(f.chance) : OrderedJson(nullptr)}};
  return json_text(json);
}

}  // namespace pumpwright

// What `pumpwright fit` prints, for people and as JSON.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/display_text.h"
#include "cli/fit_question.h"
#include "cli/json_values.h"
#include "cli/verdict_word.h"
#include "engine/quantity/format.h"

namespace pumpwright {
namespace {

// Sizes to the micrometre, or to a tenth of a thou.
std::string size_text(Length length, const Unit& unit, Sign sign = Sign::when_negative) {
  const Unit& shown = unit.system == System::inch ? unit_with_symbol("in", Kind::length)
                                                  : unit_with_symbol("mm", Kind::length);
  return format_decimals(length, shown, unit.system == System::inch ? 5 : 4, sign);
}

std::string clearance_text(Length length, const Unit& unit) {
  const Unit& shown = unit.system == System::inch ? unit_with_symbol("thou", Kind::length)
                                                  : unit_with_symbol("µm", Kind::length);
  const std::string text = format_decimals(length, shown, unit.system == System::inch ? 2 : 1, Sign::always);
  return text + (length.value() < 0 ? " (interference)" : "");
}

std::string known_text(const FitSize& size) {
  if (size.class_known) return fmt::format("{} ({})", size.class_source, word_for(*size.class_known));
  if (!size.measured) return "limits as given";
  if (size.measured->standard_uncertainty.value() > 0)
    return "measured, standard uncertainty " + size_text(size.measured->standard_uncertainty, *size.unit);
  return "measured, taken as exact: no uncertainty given";
}

void add_size(TextTable& table, const std::string& name, const FitSize& size) {
  const std::string sizes = size.measured
                                ? size_text(size.measured->value, *size.unit)
                                : fmt::format("{} to {}", size_text(size.limits.smallest, *size.unit),
                                              size_text(size.limits.largest, *size.unit));
  table.add({name, sizes, known_text(size)});
}

std::string stress_text(Pressure stress, System system) {
  return format_significant(stress,
                            suitable_unit(Kind::pressure_difference, std::abs(stress.value()), system), 3);
}

std::string press_text(const FitQuestion& q, const FitFinding& f) {
  if (!q.press) return "";
  if (f.press.empty()) return "\nNo interference: nothing holds the hub by pressure.\n";
  const System system = q.shaft.unit->system == System::inch ? System::inch : System::metric;
  const auto shown = [&](const AnyQuantity& quantity) {
    return format_significant(quantity, suitable_unit(quantity.kind(), quantity.si(), system), 3);
  };
  TextTable table({Align::left, Align::right, Align::right});
  const auto row = [&](const std::string& name, const auto& value) {
    std::vector<std::string> cells{name};
    for (const auto& press : f.press)
      cells.push_back(value(press));
    table.add(std::move(cells));
  };
  const Unit& celsius = unit_with_symbol("°C", Kind::temperature);
  const Unit& fahrenheit = unit_with_symbol("°F", Kind::temperature);
  row("interference", [&](const PressFinding& p) { return size_text(p.interference, *q.shaft.unit); });
  row("pressure between", [&](const PressFinding& p) { return stress_text(p.state.contact, system); });
  row("hub, hoop at bore",
      [&](const PressFinding& p) { return stress_text(p.state.hub_hoop_at_bore, system); });
  row("hub, von Mises", [&](const PressFinding& p) { return stress_text(p.state.hub_von_mises, system); });
  row("shaft, hoop at surface",
      [&](const PressFinding& p) { return stress_text(p.state.shaft_hoop_surface, system); });
  row("axial force", [&](const PressFinding& p) { return shown(p.state.axial_force); });
  row("torque that slips", [&](const PressFinding& p) { return shown(p.state.torque); });
  row("hub warmed to", [&](const PressFinding& p) {
    return fmt::format("{} ({})", format_decimals(p.hub_temperature, celsius, 0),
                       format_decimals(p.hub_temperature, fahrenheit, 0));
  });
  return fmt::format(
      "\n{}\nhub: {}\nshaft: {}\nfriction {:g}; plane stress, elastic; the interference is taken as "
      "effective, "
      "with no loss by smoothing.\nA warm hub burns: gloves, and nothing that burns or gives off fumes near "
      "it.\n",
      table.text(), q.press->hub.source, q.press->shaft.source, q.press->friction);
}

OrderedJson size_json(const FitSize& size) {
  OrderedJson json = {{"text", size.text},
                      {"smallest_m", size.limits.smallest.value()},
                      {"largest_m", size.limits.largest.value()}};
  json["standard_uncertainty_m"] =
      size.measured ? OrderedJson(size.measured->standard_uncertainty.value()) : OrderedJson(nullptr);
  json["known"] = known_text(size);
  return json;
}

OrderedJson press_json(const FitFinding& f) {
  auto list = OrderedJson::array();
  for (const auto& p : f.press)
    list.push_back({{"interference_m", p.interference.value()},
                    {"pressure_pa", p.state.contact.value()},
                    {"hub_hoop_at_bore_pa", p.state.hub_hoop_at_bore.value()},
                    {"hub_hoop_outside_pa", p.state.hub_hoop_outside.value()},
                    {"hub_von_mises_pa", p.state.hub_von_mises.value()},
                    {"shaft_hoop_surface_pa", p.state.shaft_hoop_surface.value()},
                    {"shaft_hoop_bore_pa", p.state.shaft_hoop_bore.value()},
                    {"hub_growth_outside_m", p.state.hub_growth_outside.value()},
                    {"axial_force_n", p.state.axial_force.value()},
                    {"torque_nm", p.state.torque.value()},
                    {"hub_temperature_k", kelvin_of(p.hub_temperature)}});
  return list;
}

}  // namespace

std::string fit_text(const FitQuestion& q, const FitFinding& f, bool colour) {
  const Unit& unit = *q.shaft.unit;
  TextTable head({Align::left, Align::left, Align::left});
  if (!f.verdict.empty())
    head.add({verdict_word(f.verdict, colour), fmt::format("wanted: {}", word_for(*q.wanted))});
  head.add({"fit", word_for(f.range.kind)});
  const auto least = clearance_text(f.range.smallest_clearance, unit);
  const auto most = clearance_text(f.range.largest_clearance, unit);
  head.add({"clearance", least == most ? least : fmt::format("{} to {}", least, most)});
  if (f.measured && f.measured->standard_uncertainty.value() > 0)
    head.add({"chance of clearance", fmt::format("{:.2f} %", 100 * f.measured->probability_of_clearance)});
  TextTable sizes({Align::left, Align::left, Align::left});
  add_size(sizes, "bore", q.bore);
  add_size(sizes, "shaft", q.shaft);
  return fmt::format("bore {}, shaft {}\n\n{}\n{}{}", one_line(q.bore.text), one_line(q.shaft.text),
                     head.text(), sizes.text(), press_text(q, f));
}

std::string fit_json(const FitQuestion& q, const FitFinding& f) {
  OrderedJson json = {{"bore", size_json(q.bore)},
                      {"shaft", size_json(q.shaft)},
                      {"smallest_clearance_m", f.range.smallest_clearance.value()},
                      {"largest_clearance_m", f.range.largest_clearance.value()},
                      {"kind", word_for(f.range.kind)}};
  if (f.measured)
    json["measured"] = {{"clearance_m", f.measured->clearance.value()},
                        {"standard_uncertainty_m", f.measured->standard_uncertainty.value()},
                        {"probability_of_clearance", f.measured->probability_of_clearance}};
  if (q.press) json["press"] = press_json(f);
  json["verdict"] = f.verdict.empty() ? OrderedJson(nullptr) : OrderedJson(f.verdict);
  return json_text(json);
}

}  // namespace pumpwright

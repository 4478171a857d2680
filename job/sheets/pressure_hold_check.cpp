#include "job/sheets/pressure_hold_check.h"

#include <algorithm>

#include <fmt/format.h>

#include "catalog/source.h"
#include "engine/hydraulics/figure_coverage.h"
#include "engine/quantity/format.h"
#include "job/decode.h"

namespace pumpwright::job::pressure_hold {
namespace {

using hydraulics::Figure;

const Unit& step_unit(const PressureHoldSheet& sheet) {
  const bool inch = sheet.pressure_unit->system == System::inch;
  return unit_with_symbol(inch ? "psi" : "bar", Kind::pressure_difference);
}

std::string gauge_text(const PressureHoldSheet& sheet, GaugePressure p) {
  return format_significant(p, *sheet.pressure_unit, 3);
}

std::string minutes_text(Time t) {
  return format_significant(t, unit_with_symbol("min", Kind::time), 2);
}

// "4 psi ± 1.2 psi", the half-width of 95 % coverage.
std::string figure_text(Kind kind, const Figure& figure, const Unit& unit) {
  const double half_width = expanded_95(figure);
  return fmt::format("{} ± {}", format_significant(AnyQuantity(kind, figure.value), unit, 3),
                     format_significant(AnyQuantity(kind, half_width), unit, 2));
}

Text same(std::string text) {
  return {text, text};
}

// Why the readings prove nothing; nothing when they do.
std::optional<Text> obstacle(const PressureHoldSheet& sheet, const PressureHoldFinding& finding) {
  switch (finding.reason) {
    case HoldReason::planned:
      return Text{"No readings were written down.", "No se anotaron lecturas."};
    case HoldReason::not_vented:
      return Text{"The casing was not vented: trapped air keeps the gauge up while liquid leaks.",
                  "La carcasa no se purgó: el aire atrapado sostiene el manómetro mientras el líquido fuga."};
    case HoldReason::not_isolated:
      return Text{"The source was not shut off: it keeps the gauge up.",
                  "La fuente no se cerró: sostiene el manómetro."};
    case HoldReason::too_short: {
      const std::string least = minutes_text(finding.hold.least);
      return Text{"Held for less than " + least + ".", "Mantenida menos de " + least + "."};
    }
    case HoldReason::pressure_short: {
      const std::string least = gauge_text(sheet, finding.pressure.used);
      return Text{"The pressure started below " + least + ".",
                  "La presión empezó por debajo de " + least + "."};
    }
    default:
      return std::nullopt;
  }
}

// As the hand wrote it.
std::string written(const JsonReader& whole) {
  const auto readings = whole.optional("readings");
  if (!readings) return {};
  const auto pressure = [&](const char* when) {
    return readings->required(when).required("pressure").text(256);
  };
  return fmt::format("{} → {}, {}", pressure("start"), pressure("end"), readings->required("held").text(256));
}

// The part that keeps the test below the rule's figure.
Text limiting_part(const std::string& name) {
  if (name == seal_part_name) return {name, "el cierre, parado"};
  return same(name);
}

// What a person has to know of how the test was done, whatever it shows.
std::vector<Text> remarks(const PressureHoldSheet& sheet, const PressureHoldFinding& finding) {
  std::vector<Text> out;
  if (auto stands = obstacle(sheet, finding)) out.push_back(std::move(*stands));
  if (finding.reason == HoldReason::leak_seen)
    out.push_back({"A leak was seen. Let the pressure off, prove zero, mend, and test again.",
                   "Se vio una fuga. Quitar la presión, comprobar cero, reparar y probar de nuevo."});
  if (finding.reason == HoldReason::over_rating)
    out.push_back({"A part saw more than its rating: take it out of service and inspect it.",
                   "Una pieza vio más de lo que admite: retirarla y revisarla."});
  if (!finding.pressure.limited_by.empty()) {
    const std::string full = gauge_text(sheet, finding.pressure.by_rule);
    const Text part = limiting_part(finding.pressure.limited_by);
    out.push_back(
        {fmt::format("Held below the rule's {} because of {}: not the rule's full test.", full, part.en),
         fmt::format("Mantenida por debajo de los {} de la regla a causa de {}: no es la prueba completa.",
                     full, part.es)});
  }
  if (finding.gauge_share < 0.25 || finding.gauge_share > 0.75)
    out.push_back({"Use a gauge whose middle half holds the test pressure.",
                   "Usar un manómetro cuya mitad central contenga la presión de prueba."});
  if (sheet.medium == HoldMedium::gas)
    out.push_back(
        {"Held with gas, which stores far more than liquid: a written procedure, a relief valve, a "
         "barrier, and nobody near.",
         "Mantenida con gas, que acumula mucho más que el líquido: procedimiento escrito, válvula de "
         "alivio, barrera y nadie cerca."});
  return out;
}

Obtained obtained(HowKnown known) {
  return known == HowKnown::remembered ? Obtained::remembered : Obtained::read;
}

Limit rule_limit(const PressureHoldSheet& sheet) {
  const PressureHoldFinding finding = pressure_hold_finding(sheet);
  const bool own = sheet.rule == hydraulics::HoldRule::own;
  const std::string pressure = gauge_text(sheet, finding.pressure.used);
  const std::string time = minutes_text(finding.hold.least);
  Limit limit;
  limit.id = fmt::format("pressure-hold/{}", hydraulics::word_for(sheet.rule));
  limit.rank = own ? Rank::job : Rank::standard;
  limit.asks = {fmt::format("{} for {}, no leak", pressure, time),
                fmt::format("{} durante {}, sin fuga", pressure, time)};
  limit.source.document = finding.pressure.source;
  limit.source.note = finding.hold.source;
  limit.source.obtained =
      own ? Obtained::shop_rule : obtained(weaker(finding.pressure.known, finding.hold.known));
  return limit;
}

std::vector<Limit> leak_limits(const JsonReader& whole) {
  const auto written_limit = whole.optional("leak_limit");
  if (!written_limit) return {};
  Limit limit;
  limit.id = "pressure-hold/leak-limit";
  limit.rank = Rank::job;
  limit.upper = decode_positive(*written_limit, Kind::volume_flow);
  limit.source = {"this job's make-up, as entered", "", "", Obtained::shop_rule, ""};
  return {std::move(limit)};
}

Measurement leak_number(const Figure& leak) {
  Measurement number;
  number.value = leak.value;
  number.u = leak.u;
  number.dof = leak.dof;
  return number;
}

bool shows_a_leak(HoldReason reason) {
  return reason == HoldReason::leak_seen || reason == HoldReason::over_rating;
}

}  // namespace

void try_planned(const JsonReader& whole) {
  (void)pressure_hold_finding(decode_pressure_hold(whole));
}

std::vector<std::string> tags(const JsonReader& whole) {
  return whole.optional("leak_limit") ? std::vector<std::string>{"leak-limit"} : std::vector<std::string>{};
}

std::vector<Limit> limits(Judged judged, const JsonReader& whole) {
  if (judged == Judged::leak) return leak_limits(whole);
  return {rule_limit(decode_pressure_hold(whole))};
}

PressureHoldResult compute(const JsonReader& whole) {
  PressureHoldSheet sheet = decode_pressure_hold(whole);
  PressureHoldFinding finding = pressure_hold_finding(sheet);
  return {std::move(sheet), std::move(finding)};
}

SheetMeasured measure(Judged judged, const PressureHoldResult& result, const JsonReader& whole) {
  const auto& [sheet, finding] = result;
  SheetMeasured out;
  out.as_written = written(whole);
  out.remarks = remarks(sheet, finding);
  if (obstacle(sheet, finding)) out.blocked = Reason::test_proves_nothing;
  if (judged == Judged::leak) {
    if (finding.leak) out.number = leak_number(finding.leak->leak_m3_s);
    out.unit = &unit_with_symbol("mL/min", Kind::volume_flow);
  } else {
    out.kept = !shows_a_leak(finding.reason);
  }
  return out;
}

std::vector<SheetLine> lines(const PressureHoldResult& result) {
  const auto& [sheet, finding] = result;
  std::vector<SheetLine> out{
      {{"test pressure", "presión de prueba"}, same(gauge_text(sheet, finding.pressure.used))},
      {{"for at least", "durante al menos"}, same(minutes_text(finding.hold.least))}};
  if (finding.leak) {
    const auto& leak = *finding.leak;
    const Unit& step = step_unit(sheet);
    const auto pressure = [&](const Figure& figure) {
      return same(figure_text(Kind::pressure_difference, figure, step));
    };
    out.push_back({{"the gauge fell by", "el manómetro bajó"}, pressure(leak.drop_pa)});
    out.push_back({{"of that by temperature", "de ello por temperatura"}, pressure(leak.drop_by_heat_pa)});
    out.push_back({{"by a leak", "por una fuga"}, pressure(leak.drop_by_leak_pa)});
    out.push_back({{"leak", "fuga"},
                   same(figure_text(Kind::volume_flow, leak.leak_m3_s,
                                    unit_with_symbol("mL/min", Kind::volume_flow)))});
  }
  const Unit& joule = unit_with_symbol("J", Kind::energy);
  out.push_back({{"energy stored", "energía acumulada"}, same(format_significant(finding.energy, joule, 3))});
  return out;
}

}  // namespace pumpwright::job::pressure_hold

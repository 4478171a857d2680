#include "job/sheets/performance_check.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/quantity/format.h"
#include "job/sheets/performance_wording.h"

namespace pumpwright::job::performance {
namespace {

using hydraulics::GradeFinding;
using hydraulics::GradeReason;

Text same(const std::string& text) {
  return {text, text};
}

Limit guarantee_limit(const PerformanceSheet& sheet) {
  const GuaranteeSheet& g = *sheet.guarantee;
  const std::string by = g.rule.own ? std::string("own") : std::string(hydraulics::word_for(*g.grade));
  const std::string promised = fmt::format("{}, {}", g.flow.text, g.head.text);
  Limit limit;
  limit.id = "performance/" + by;
  limit.rank = g.rule.own ? Rank::job : Rank::standard;
  if (g.rule.own)
    limit.asks = {promised + " within the contract's tolerances",
                  promised + " dentro de las tolerancias del contrato"};
  else
    limit.asks = {fmt::format("{} within grade {}", promised, by),
                  fmt::format("{} dentro del grado {}", promised, by)};
  if (g.rule.own) {
    limit.source = {"this job's make-up, as entered", "", "", Obtained::shop_rule, ""};
  } else {
    limit.source.document = std::string(hydraulics::grades_source);
    limit.source.obtained = g.confirmed_by.empty() ? Obtained::remembered : Obtained::read;
    if (!g.confirmed_by.empty()) limit.source.note = "compared with the standard by " + g.confirmed_by;
  }
  return limit;
}

Limit load_limit(const DriverSheet& driver) {
  Limit limit;
  limit.id = "performance/motor-load";
  limit.rank = Rank::job;
  limit.upper = parse_written(fmt::format("{:g} %", 100 * driver.service_factor), Kind::percent,
                              {.field = "service_factor"});
  limit.source = {"the motor's plate, as entered", "", "", Obtained::shop_rule, ""};
  return limit;
}

// A grade's figures decide as far as their limit is known; the limit says so itself.
PerformanceSheet decided_by_limit(PerformanceSheet sheet) {
  if (sheet.guarantee) sheet.guarantee->rule.confirmed = true;
  return sheet;
}

std::optional<Reason> held_back(const GradeFinding& grade) {
  if (grade.verdict != Outcome::unproven) return std::nullopt;
  return grade.reason == GradeReason::within_uncertainty ? Reason::inside_uncertainty
                                                         : Reason::test_proves_nothing;
}

SheetMeasured guarantee_kept(const PerformanceResult& result) {
  const auto& [sheet, finding] = result;
  const GradeFinding& grade = *agreed_grade(sheet, finding);
  SheetMeasured out;
  out.kept = grade.verdict == Outcome::pass;
  out.blocked = held_back(grade);
  if (grade.verdict == Outcome::pass) return out;
  out.remarks.push_back(reason_text(finding, grade));
  if (finding.remedy) out.remarks.push_back(remedy_text(sheet, finding));
  return out;
}

SheetMeasured motor_load(const PerformanceResult& result) {
  const auto& [sheet, finding] = result;
  SheetMeasured out;
  out.unit = &unit_with_symbol("%", Kind::percent);
  if (!finding.driver) {
    out.blocked = Reason::test_proves_nothing;
    out.remarks.push_back({"The motor's power was not measured.", "No se midió la potencia del motor."});
    return out;
  }
  const DriverLoad& load = *finding.driver;
  Measurement number;
  number.value = load.share.value;
  number.u = load.share.u;
  number.dof = load.share.dof;
  out.number = number;
  if (load.flow_m3_s >= finding.model.curves().head.highest_m3_s() * (1 - 1e-9))
    out.remarks.push_back(
        {"It asks most at the end of the tested flows: with the valve wide open it may ask more.",
         "Pide lo más al final de los caudales probados: con la válvula abierta del todo puede "
         "pedir más."});
  if (load.uneven && *load.uneven > hydraulics::most_voltage_unbalance) {
    out.blocked = Reason::test_proves_nothing;
    out.remarks.push_back({"The voltages differ by more than 5 %: the motor is not to be run on this supply.",
                           "Las tensiones difieren más del 5 %: el motor no debe funcionar con esta red."});
  }
  return out;
}

std::string written(const PerformanceSheet& sheet, const PerformanceFinding& finding) {
  const PumpUnits units = units_of(sheet.test);
  const auto& results = finding.model.results();
  const auto by_flow = [](const auto& a, const auto& b) { return a.flow < b.flow; };
  const auto [least, most] = std::minmax_element(results.begin(), results.end(), by_flow);
  return fmt::format("{} … {} ({})", units.flow_text(least->flow.value()),
                     units.flow_text(most->flow.value()), results.size());
}

void put_promised(std::vector<SheetLine>& out, const PerformanceResult& result) {
  const auto& [sheet, finding] = result;
  const PumpUnits units = units_of(sheet.test);
  const auto& a = *finding.acceptance;
  const auto& promised = sheet.guarantee->promised;
  const auto against = [](const std::string& found, const std::string& wanted, double off) {
    return Text{fmt::format("{}, promised {}: {}", found, wanted, signed_percent(off)),
                fmt::format("{}, prometido {}: {}", found, wanted, signed_percent(off))};
  };
  out.push_back({{"head at the guaranteed flow", "altura al caudal garantizado"},
                 against(units.head_text(a.head_at_flow), sheet.guarantee->head.text,
                         a.head_at_flow.value / promised.head.value() - 1)});
  if (a.flow_at_head)
    out.push_back({{"flow at the guaranteed head", "caudal a la altura garantizada"},
                   against(units.flow_text(*a.flow_at_head), sheet.guarantee->flow.text,
                           a.flow_at_head->value / promised.flow.value() - 1)});
  if (a.efficiency)
    out.push_back({{"efficiency on the line from the origin", "rendimiento en la recta del origen"},
                   same(percent_text(*a.efficiency))});
  if (a.power)
    out.push_back({{"shaft power there", "potencia en el eje allí"}, same(units.power_text(*a.power))});
}

Text outcome_text(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass:
      return {"pass", "pasa"};
    case Outcome::fail:
      return {"fail", "falla"};
    case Outcome::unproven:
      return {"unproven", "sin probar"};
  }
  return {};
}

void put_grades(std::vector<SheetLine>& out, const PerformanceResult& result) {
  const auto& [sheet, finding] = result;
  for (const auto& grade : finding.acceptance->grades) {
    const Text word = outcome_text(grade.verdict);
    const std::string chance = chance_text(grade.chance);
    out.push_back({grade_text(sheet, grade),
                   {fmt::format("{}, chance {}", word.en, chance),
                    fmt::format("{}, probabilidad {}", word.es, chance)}});
  }
}

void put_best(std::vector<SheetLine>& out, const PerformanceResult& result) {
  const auto& [sheet, finding] = result;
  if (!finding.best) return;
  const PumpUnits units = units_of(sheet.test);
  const std::string efficiency = percent_text(finding.best_figures[2]);
  const std::string flow = units.flow_text(finding.best_figures[0]);
  out.push_back({{"best efficiency", "mejor rendimiento"},
                 {fmt::format("{} at {}", efficiency, flow), fmt::format("{} a {}", efficiency, flow)}});
  if (finding.shape)
    out.push_back({{"specific speed (rpm, gpm, ft)", "velocidad específica (rpm, gpm, ft)"},
                   same(fmt::format("{:.0f}", finding.shape->us))});
}

void put_suction(std::vector<SheetLine>& out, const PerformanceResult& result) {
  const auto& [sheet, finding] = result;
  const PumpUnits units = units_of(sheet.test);
  if (finding.npsh3)
    out.push_back({{"NPSH3 (head 3 % down)", "NPSH3 (altura 3 % menor)"},
                   same(units.head_text(finding.npsh3->npsh_m))});
  if (finding.npsh_available)
    out.push_back({{"NPSH the plant offers", "NPSH que ofrece la instalación"},
                   same(units.head_text(finding.npsh_available->value()))});
}

}  // namespace

void try_planned(const JsonReader& whole) {
  const PerformanceSheet sheet = performance_plan(whole);
  const JsonReader guarantee = whole.required("guarantee");
  if (!sheet.guarantee->grade && !sheet.guarantee->rule.own)
    guarantee.refuse("the agreed grade, or tolerances of the contract's own");
}

std::vector<std::string> tags(const JsonReader& whole) {
  const bool driver = performance_plan(whole).driver.has_value();
  return driver ? std::vector<std::string>{"driver"} : std::vector<std::string>{};
}

std::vector<Limit> limits(Judged judged, const JsonReader& whole) {
  const PerformanceSheet sheet = performance_plan(whole);
  if (judged == Judged::motor_load) return {load_limit(*sheet.driver)};
  return {guarantee_limit(sheet)};
}

PerformanceResult compute(const JsonReader& whole) {
  PerformanceSheet sheet = decided_by_limit(decode_performance(whole));
  PerformanceFinding finding = performance_finding(sheet);
  return {std::move(sheet), std::move(finding)};
}

SheetMeasured measure(Judged judged, const PerformanceResult& result) {
  SheetMeasured out = judged == Judged::motor_load ? motor_load(result) : guarantee_kept(result);
  out.as_written = written(result.sheet, result.finding);
  out.remarks.insert(out.remarks.end(), result.finding.cautions.begin(), result.finding.cautions.end());
  return out;
}

std::vector<SheetLine> lines(const PerformanceResult& result) {
  std::vector<SheetLine> out;
  put_promised(out, result);
  put_grades(out, result);
  put_best(out, result);
  if (result.finding.driver)
    out.push_back({{"motor where it works hardest", "motor donde más trabaja"},
                   driver_text(result.sheet, result.finding)});
  put_suction(out, result);
  return out;
}

}  // namespace pumpwright::job::performance

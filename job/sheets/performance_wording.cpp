#include "job/sheets/performance_wording.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace pumpwright::job {
namespace {

using hydraulics::GradeFinding;
using hydraulics::GradeReason;

Text operator+(const Text& a, const Text& b) {
  return {a.en + b.en, a.es + b.es};
}

// One sentence in each language, with the same figures in the same order.
template <class... Figures>
Text both(fmt::format_string<const Figures&...> en, fmt::format_string<const Figures&...> es,
          const Figures&... figures) {
  return {fmt::format(en, figures...), fmt::format(es, figures...)};
}

Text settling(const PerformanceFinding& finding) {
  const auto& shares = finding.acceptance->shares;
  if (shares.empty()) return {"measure again.", "medir otra vez."};
  const std::string part = percent_text(shares.front().fraction, 0);
  return both("{} of the variance of the head comes from {}; begin there.",
              "{} de la varianza de la altura viene de {}; empezar por ahí.", part, shares.front().group);
}

std::string rpm_text(const PerformanceFinding& finding, double factor) {
  return fmt::format("{:.0f} rpm", finding.model.test().rated_speed.value() * 30 / pi * factor);
}

// The pump gives too little: metal does not come back.
Text speed_up(const PerformanceSheet& sheet, const PerformanceFinding& finding) {
  const Remedy& r = *finding.remedy;
  const PumpUnits units = units_of(sheet.test);
  Text out = both(
      "The pump gives too little. {} ({}) would give {} at the guaranteed flow by the affinity law, with an "
      "even chance of undershooting; {} with a chance of 5 %. Power rises with the cube: {}. A cut can not "
      "help",
      "La bomba da de menos. {} ({}) darían {} al caudal garantizado por la ley de afinidad, con una "
      "probabilidad igual de quedarse corta; {} con una del 5 %. La potencia sube con el cubo: {}. Un "
      "recorte no ayuda",
      rpm_text(finding, r.factor), signed_percent(r.factor - 1),
      units.head_text(sheet.guarantee->promised.head.value()), rpm_text(finding, r.safe_factor),
      fmt::format("{:+.0f} %", 100 * (std::pow(r.factor, 3) - 1)));
  if (r.diameter_needed)
    out = out + both("; it would take an impeller of about {} (fitted: {})",
                     "; haría falta un impulsor de unos {} (montado: {})",
                     units.diameter_text(r.diameter_needed->value()),
                     units.diameter_text(sheet.impeller->diameter.value()));
  return out + Text{
                   ". Before that: wear-ring and vane-end clearance, direction of rotation, air in the "
                   "suction, the gauges.",
                   ". Antes: holguras de aros y álabes, sentido de giro, aire en la aspiración, los "
                   "manómetros."};
}

Text cut_text(const hydraulics::TrimPlan& trim, const PumpUnits& units) {
  Text out = both(" A cut to {} would do it with a chance of {} of undershooting",
                  " Un recorte a {} bastaría, con una probabilidad de {} de quedarse corta",
                  units.diameter_text(trim.nominal->diameter.value()), chance_text(trim.nominal->undershoot));
  out = out + (trim.first ? both("; cut to {} first (chance {}), test, then cut again.",
                                 "; recortar primero a {} (probabilidad {}), probar y recortar otra vez.",
                                 units.diameter_text(trim.first->diameter.value()),
                                 chance_text(trim.first->undershoot))
                          : Text{"; no cut at all is safe at 5 %.", "; ningún recorte es seguro al 5 %."});
  return out + Text{" A wrong cut can not be undone: pumpwright trim plans it.",
                    " Un recorte equivocado no tiene vuelta atrás: pumpwright trim lo planea."};
}

Text slow_down_or_cut(const PerformanceSheet& sheet, const PerformanceFinding& finding) {
  const Remedy& r = *finding.remedy;
  const PumpUnits units = units_of(sheet.test);
  const Text out = both(
      "The pump gives more than promised. {} ({}) would give {} by the affinity law, with an even chance of "
      "undershooting; {} with a chance of 5 %.",
      "La bomba da más de lo prometido. {} ({}) darían {} por la ley de afinidad, con una probabilidad igual "
      "de quedarse corta; {} con una del 5 %.",
      rpm_text(finding, r.factor), signed_percent(r.factor - 1),
      units.head_text(sheet.guarantee->promised.head.value()),
      rpm_text(finding, std::min(1.0, r.safe_factor)));
  return r.trim && r.trim->nominal ? out + cut_text(*r.trim, units) : out;
}

}  // namespace

std::string signed_percent(double fraction) {
  return fmt::format("{:+.1f} %", 100 * fraction);
}

Text grade_text(const PerformanceSheet& sheet, const GradeFinding& grade) {
  if (sheet.guarantee->rule.own)
    return {"the contract's own tolerances", "las tolerancias propias del contrato"};
  return both("grade {}", "grado {}", std::string(hydraulics::word_for(grade.grade)));
}

Text reason_text(const PerformanceFinding& finding, const GradeFinding& grade) {
  switch (grade.reason) {
    case GradeReason::met:
      return {"Every criterion is met.", "Se cumplen todos los criterios."};
    case GradeReason::not_met:
      return {"A criterion is not met; see the margins.", "No se cumple un criterio; ver los márgenes."};
    case GradeReason::within_uncertainty:
      return Text{"A margin is smaller than its uncertainty: ", "Un margen es menor que su incertidumbre: "} +
             settling(finding);
    case GradeReason::measured_too_coarse:
      return Text{"The measurement is coarser than the grade permits: ",
                  "La medición es más tosca de lo que admite el grado: "} +
             settling(finding);
    case GradeReason::line_not_reached:
      return {
          "The tests do not reach the line from the origin through the guarantee point, where power and "
          "efficiency are judged: test more flow.",
          "Las pruebas no llegan a la recta que va del origen al punto garantizado, donde se juzgan "
          "potencia y rendimiento: probar con más caudal."};
    case GradeReason::limit_unconfirmed:
      return both(
          "Limit unconfirmed: the tolerances are remembered, not read in the standard (by them: {}). Compare "
          "them with {} and say so under guarantee/confirmed_by, or give the contract's own.",
          "Límite sin confirmar: las tolerancias son recordadas, no leídas en la norma (según ellas: {}). "
          "Compararlas con {} y decirlo en guarantee/confirmed_by, o dar las del contrato.",
          std::string(code(grade.by_figures)), std::string(hydraulics::grades_source));
  }
  return {};
}

Text remedy_text(const PerformanceSheet& sheet, const PerformanceFinding& finding) {
  return finding.remedy->factor > 1 ? speed_up(sheet, finding) : slow_down_or_cut(sheet, finding);
}

Text driver_text(const PerformanceSheet& sheet, const PerformanceFinding& finding) {
  const DriverLoad& load = *finding.driver;
  Text out = both("{} of what the motor may give, at {}", "{} de lo que el motor puede dar, a {}",
                  percent_text(load.share), units_of(sheet.test).flow_text(load.flow_m3_s));
  if (load.uneven)
    out = out + both("; voltages uneven by {}: it may give {} of its plate",
                     "; tensiones desiguales en {}: puede dar {} de su placa", percent_text(*load.uneven),
                     percent_text(load.derating, 0));
  if (load.uneven && *load.uneven > hydraulics::most_voltage_unbalance)
    out = out + Text{"; over 5 % a motor is not to be run", "; con más del 5 % un motor no debe funcionar"};
  return out;
}

}  // namespace pumpwright::job

#include "job/sheets/alignment_check.h"

#include <cmath>

#include <fmt/format.h>

#include "job/json_quantity.h"
#include "job/sheets/alignment_units.h"

namespace pumpwright::job::aligning {
namespace {

using alignment::ShaftLine;

Text obstacle_text(const std::string& reason) {
  if (reason == "sweep-disagrees")
    return {"A turn's readings do not fit one another: a loose bracket, a plunger at its end, a bent shaft.",
            "Las lecturas de una vuelta no cuadran: soporte flojo, palpador al tope, eje doblado."};
  if (reason == "soft-foot")
    return {"A foot is soft: shim it first, then sweep again.",
            "Un pie no asienta: calzarlo primero y barrer de nuevo."};
  return {"Nothing is known of the readings' doubt.", "No se sabe nada de la duda de las lecturas."};
}

std::optional<Reason> held_back(const AlignmentFinding& finding) {
  if (finding.verdict != "unproven") return std::nullopt;
  const bool no_test = finding.reason == "sweep-disagrees" || finding.reason == "soft-foot" ||
                       finding.reason == "uncertainty-not-known";
  return no_test ? Reason::test_proves_nothing : Reason::inside_uncertainty;
}

// One pair of feet, in words of one language each.
Text foot_text(const AlignmentSheet& sheet, const Text& name, const FootPlan& plan) {
  const AlignmentUnits s(sheet);
  const double raise = plan.wanted.raise.value(), push = plan.wanted.push.value();
  const std::string up = s.length(metres(std::fabs(raise))), aside = s.length(metres(std::fabs(push)));
  Text out{fmt::format("{} feet: {} {}, push {} to the {}", name.en, raise < 0 ? "lower" : "raise", up, aside,
                       push < 0 ? "left" : "right"),
           fmt::format("pies {}: {} {}, empujar {} a la {}", name.es, raise < 0 ? "bajar" : "subir", up,
                       aside, push < 0 ? "izquierda" : "derecha")};
  if (plan.pack && !plan.pack->shims.empty()) {
    const std::string pack = as_written(plan.pack->shims, sheet.shims->stock);
    out.en += fmt::format("; {}: {}", plan.replaces ? "pack under each" : "add under each", pack);
    out.es += fmt::format("; {}: {}", plan.replaces ? "calzo bajo cada uno" : "añadir bajo cada uno", pack);
  }
  if (plan.possible.base_bound || plan.possible.bolt_bound) {
    out.en +=
        plan.possible.base_bound ? "; not so many shims there to take out" : "; the bolts' play ends before";
    out.es += plan.possible.base_bound ? "; no hay tantos calzos que quitar"
                                       : "; el juego de los pernos acaba antes";
  }
  return {out.en + ".", out.es + "."};
}

std::vector<Text> remarks(const AlignmentSheet& sheet, const AlignmentFinding& finding) {
  std::vector<Text> out;
  if (held_back(finding) == Reason::test_proves_nothing) out.push_back(obstacle_text(finding.reason));
  if (finding.verdict == "pass") return out;
  out.push_back(foot_text(sheet, {"Front", "delanteros"}, finding.front));
  out.push_back(foot_text(sheet, {"Back", "traseros"}, finding.back));
  return out;
}

std::string tolerance_text(const AlignmentSheet& sheet) {
  return fmt::format("{}, {}", sheet.offset_tolerance.text, sheet.angularity_tolerance.text);
}

}  // namespace

void try_planned(const JsonReader& whole) {
  (void)alignment_plan(whole);
}

std::vector<Limit> limits(const JsonReader& whole) {
  const AlignmentSheet sheet = alignment_plan(whole);
  Limit limit;
  limit.id = "alignment/tolerance";
  limit.rank = Rank::job;
  limit.asks = {"offset and angularity at most " + tolerance_text(sheet) + ", warm",
                "desvío y ángulo como máximo " + tolerance_text(sheet) + ", en caliente"};
  limit.source = {"this job's make-up, as entered", "", "", Obtained::shop_rule, ""};
  return {std::move(limit)};
}

AlignmentResult compute(const JsonReader& whole) {
  AlignmentSheet sheet = decode_alignment(whole);
  AlignmentFinding finding = alignment_finding(sheet);
  return {std::move(sheet), std::move(finding)};
}

SheetMeasured measure(const AlignmentResult& result) {
  const auto& [sheet, finding] = result;
  SheetMeasured out;
  out.as_written = fmt::format("{}; {}", sheet.dial_names[0], sheet.dial_names[1]);
  out.kept = finding.verdict == "pass";
  out.blocked = held_back(finding);
  out.remarks = remarks(sheet, finding);
  return out;
}

std::vector<SheetLine> lines(const AlignmentResult& result) {
  const auto& [sheet, finding] = result;
  const AlignmentUnits s(sheet);
  const auto of = [](const std::string& found, const std::string& tolerance) {
    return Text{found + " of " + tolerance, found + " de " + tolerance};
  };
  const auto both = [&](const ShaftLine& line) {
    const std::string text = s.length(line.offset()) + ", " + s.slope(line.angularity());
    return Text{text, text};
  };
  return {{{"offset, warm", "desvío, en caliente"},
           of(s.length(metres(finding.offset.value)), sheet.offset_tolerance.text)},
          {{"angularity, warm", "ángulo, en caliente"},
           of(s.slope(radians(finding.angularity.value)), sheet.angularity_tolerance.text)},
          {{"offset and angularity, cold", "desvío y ángulo, en frío"}, both(finding.cold)},
          {{"after the moves, by calculation", "tras los movimientos, por cálculo"}, both(finding.after)}};
}

}  // namespace pumpwright::job::aligning

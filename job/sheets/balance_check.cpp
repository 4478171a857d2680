#include "job/sheets/balance_check.h"

#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "engine/quantity/format.h"
#include "job/sheets/balance_units.h"

namespace pumpwright::job::balance {
namespace {

std::string mass_text(const BalanceSheet& sheet, Mass mass) {
  return format_significant(mass, unit_with_symbol(in_inches(sheet) ? "oz" : "g", Kind::mass), 3);
}

std::string degrees_text(Angle angle) {
  return fmt::format("{:.0f}°", degrees_of(angle));
}

std::string grade_text(const BalanceSheet& sheet) {
  return fmt::format("G {:g}", sheet.rotor.grade.value() * 1000);
}

// Why the runs prove nothing.
Text obstacle_text(const std::string& reason) {
  if (reason == "trial-runs-wanted")
    return {"Too few runs: one as found, and one for each plane with a trial weight.",
            "Faltan pasadas: una tal como está y una por plano con un peso de prueba."};
  if (reason == "uncertainty-not-known")
    return {
        "The doubt of the readings is not known: repeat a run, or give what amplitude and phase are worth.",
        "No se conoce la duda de las lecturas: repetir una pasada, o dar lo que valen amplitud y fase."};
  return {"The runs do not tell the two planes apart.", "Las pasadas no distinguen los dos planos."};
}

// What an unproven balance rests on.
std::optional<Reason> held_back(const BalanceFinding& finding) {
  if (finding.verdict.empty()) return Reason::test_proves_nothing;
  if (finding.verdict != "unproven") return std::nullopt;
  if (finding.reason == "limit-unconfirmed") return Reason::limit_unconfirmed;
  const bool no_test = finding.reason == "trial-runs-wanted" || finding.reason == "uncertainty-not-known" ||
                       finding.reason == "planes-not-told-apart";
  return no_test ? Reason::test_proves_nothing : Reason::inside_uncertainty;
}

// What to add in a plane, or to take out opposite.
Text correction_text(const BalanceSheet& sheet, const PlaneInFile& plane, const PlaneCorrection& c) {
  const std::string mass = mass_text(sheet, c.mass);
  const std::string add = degrees_text(c.add.place);
  const std::string take = degrees_text(rotor::opposite(c.add.place));
  return {fmt::format("{}: add {} at radius {}, {}; or take as much out at {}.", plane.name, mass,
                      plane.radius.text, add, take),
          fmt::format("{}: poner {} en el radio {}, a {}; o quitar lo mismo a {}.", plane.name, mass,
                      plane.radius.text, add, take)};
}

Text place_text(const std::string& where) {
  if (where == "bearing A") return {where, "rodamiento A"};
  if (where == "bearing B") return {where, "rodamiento B"};
  return {where, where};
}

// What the meter showed in the last run.
std::string written(const JsonReader& whole) {
  const auto runs = whole.optional("runs");
  if (!runs) return {};
  const auto last = runs->items(rotor::runs_max).back();
  std::vector<std::string> shown;
  for (const auto& reading : last.required("readings").items(rotor::sensors_max))
    shown.push_back(reading.required("amplitude").text(64) + " " + reading.required("phase").text(64));
  return fmt::format("{}: {}", last.required("name").text(80), fmt::join(shown, "; "));
}

std::vector<Text> remarks(const BalanceSheet& sheet, const BalanceFinding& finding) {
  std::vector<Text> out;
  const auto back = held_back(finding);
  if (back == Reason::test_proves_nothing)
    out.push_back(obstacle_text(finding.verdict.empty() ? "trial-runs-wanted" : finding.reason));
  if (finding.verdict != "pass")
    for (std::size_t p = 0; p < finding.corrections.size(); ++p)
      out.push_back(correction_text(sheet, sheet.planes[p], finding.corrections[p]));
  for (const TrialEffect& effect : finding.effects)
    if (!effect.enough)
      out.push_back(
          {fmt::format("{}: the trial weight changed too little to be told from the doubt.", effect.run),
           fmt::format("{}: el peso de prueba cambió demasiado poco para distinguirlo de la duda.",
                       effect.run)});
  return out;
}

}  // namespace

void try_planned(const JsonReader& whole) {
  (void)balance_finding(decode_balance(whole));
}

std::vector<Limit> limits(const JsonReader& whole) {
  const BalanceSheet sheet = decode_balance(whole);
  const BalanceFinding finding = balance_finding(sheet);
  const std::string permitted =
      fmt::format("{}: {}", grade_text(sheet), unbalance_text(sheet, finding.permissible));
  Limit limit;
  limit.id = fmt::format("balance/{}", grade_text(sheet));
  limit.rank = Rank::standard;
  limit.asks = {fmt::format("{} at {}, or less", permitted, sheet.speed.text),
                fmt::format("{} a {}, o menos", permitted, sheet.speed.text)};
  limit.source = {"ISO 21940-11", "", "table 1", Obtained::read, "grades as restated publicly"};
  return {std::move(limit)};
}

BalanceResult compute(const JsonReader& whole) {
  BalanceSheet sheet = decode_balance(whole);
  BalanceFinding finding = balance_finding(sheet);
  return {std::move(sheet), std::move(finding)};
}

SheetMeasured measure(const BalanceResult& result, const JsonReader& whole) {
  SheetMeasured out;
  out.as_written = written(whole);
  out.kept = result.finding.verdict == "pass";
  out.blocked = held_back(result.finding);
  out.remarks = remarks(result.sheet, result.finding);
  return out;
}

std::vector<SheetLine> lines(const BalanceResult& result) {
  const auto& [sheet, finding] = result;
  const auto same = [](const std::string& text) { return Text{text, text}; };
  std::vector<SheetLine> out{
      {{"permitted", "admisible"},
       same(fmt::format("{} ({})", unbalance_text(sheet, finding.permissible), grade_text(sheet)))}};
  for (const TrialAdvice& trial : finding.trial)
    if (sheet.runs.runs.empty())
      out.push_back({{"usual trial weight", "peso de prueba usual"}, same(mass_text(sheet, trial.mass))});
  for (const JudgedUnbalance& judged : finding.judged) {
    const Text where = place_text(judged.where);
    const std::string left = unbalance_text(sheet, judged.verdict.amount);
    const std::string limit = unbalance_text(sheet, judged.verdict.limit);
    const std::string at = degrees_text(judged.place);
    const std::string doubt = judged.verdict.u ? " ± " + unbalance_text(sheet, *judged.verdict.u * 2.0) : "";
    out.push_back({{"left, " + where.en, "queda, " + where.es},
                   {fmt::format("{}{} of {}, heavy at {}", left, doubt, limit, at),
                    fmt::format("{}{} de {}, pesado a {}", left, doubt, limit, at)}});
  }
  return out;
}

}  // namespace pumpwright::job::balance

#include "job/sheets/rotor_check.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"

namespace pumpwright::job::shaft {
namespace {

using rotor::RotorReason;
using rotor::RotorVerdict;

System system_of(const RotorSheet& sheet) {
  return sheet.seal_face.unit->system;
}

std::string small_text(const RotorSheet& sheet, Length l) {
  const bool inch = system_of(sheet) == System::inch;
  return format_significant(l, unit_with_symbol(inch ? "thou" : "µm", Kind::length), 3);
}

// As many significant digits as the figure is worth, zeros after them.
double rounded(double number, int digits) {
  if (!(number > 0) || !std::isfinite(number)) return number;
  const double step = std::pow(10, std::floor(std::log10(number)) - (digits - 1));
  return std::round(number / step) * step;
}

std::string hours_text(Time t) {
  constexpr double hour_s = 3600;
  return format_significant(seconds(rounded(t.value() / hour_s, 2) * hour_s),
                            unit_with_symbol("h", Kind::time), 2);
}

std::string speed_text(Speed speed) {
  constexpr double rpm = pi / 30;
  return format_significant(radians_per_second(rounded(speed.value() / rpm, 3) * rpm),
                            unit_with_symbol("rpm", Kind::speed), 3);
}

std::string force_text(const RotorSheet& sheet, Force f) {
  return format_significant(f, suitable_unit(Kind::force, f.value(), system_of(sheet)), 3);
}

// "12 µm (8 µm … 19 µm)".
template <class Amount, class Show>
std::string range_text(const Amount& range, const Show& show) {
  return fmt::format("{} ({} … {})", show(range.expected), show(range.least), show(range.most));
}

std::string_view what_of(Judged judged) {
  if (judged == Judged::critical_speed) return "separation";
  return judged == Judged::bearing_life ? "life" : "deflection";
}

Text reason_text(RotorReason reason) {
  switch (reason) {
    case RotorReason::inside_at_most:
      return {"It keeps to the limit even where the radial thrust is the most it may be.",
              "Cumple el límite incluso con el mayor empuje radial posible."};
    case RotorReason::outside_at_least:
      return {
          "It does not keep to the limit even where the radial thrust is the least it may be: a thicker or "
          "shorter shaft end, or a flow nearer to best efficiency.",
          "No cumple el límite ni con el menor empuje radial posible: extremo de eje más grueso o más corto, "
          "o un caudal más cercano al de mejor rendimiento."};
    case RotorReason::thrust_straddles_limit:
      return {
          "The limit lies inside what the radial thrust may do: take its factor from a test or the pump's "
          "sheet.",
          "El límite queda dentro de lo que puede hacer el empuje radial: tomar su factor de un ensayo o de "
          "la hoja de la bomba."};
    case RotorReason::far_enough:
      return {"No forward critical speed is near.", "No hay velocidad crítica directa cerca."};
    case RotorReason::too_near:
      return {
          "Unbalance would shake the rotor there: another speed, or a thicker or shorter overhang.",
          "El desequilibrio sacudiría el rotor ahí: otra velocidad, o un voladizo más grueso o más corto."};
    case RotorReason::stiffness_not_given:
      return {
          "The stiffness of a bearing is not given; held rigidly, critical speeds are the highest they can "
          "be.",
          "No se da la rigidez de un rodamiento; con apoyo rígido las velocidades críticas son las mayores "
          "posibles."};
    case RotorReason::axial_load_not_given:
      return {"The thrust along the shaft is not given.", "No se da el empuje axial."};
    case RotorReason::beyond_life_formula:
      return {
          "A bearing may carry over half its dynamic rating, where the life formula does not hold.",
          "Un rodamiento puede llevar más de la mitad de su capacidad dinámica, donde la fórmula de vida no "
          "vale."};
  }
  return {};
}

Reason held_back(RotorReason reason) {
  const bool missing =
      reason == RotorReason::stiffness_not_given || reason == RotorReason::axial_load_not_given;
  if (missing) return Reason::not_computable;
  return reason == RotorReason::beyond_life_formula ? Reason::not_computable : Reason::inside_uncertainty;
}

Text asks(Judged judged, const RotorSheet& sheet, const rotor::RotorLimits& limits) {
  if (judged == Judged::critical_speed) {
    const std::string share = fmt::format("{:.0f} %", 100 * limits.separation);
    return {"at least " + share + " of the speed away from a critical one",
            "al menos al " + share + " de la velocidad de una crítica"};
  }
  if (judged == Judged::bearing_life) {
    const std::string life = hours_text(*limits.life);
    return {"at least " + life + " for both together, L10", "al menos " + life + " para ambos juntos, L10"};
  }
  const std::string most = small_text(sheet, limits.deflection);
  return {"at most " + most + " at the seal's faces", "como máximo " + most + " en las caras del cierre"};
}

const std::string& source_of(Judged judged, const rotor::RotorLimits& limits) {
  if (judged == Judged::critical_speed) return limits.separation_source;
  return judged == Judged::bearing_life ? limits.life_source : limits.deflection_source;
}

}  // namespace

void try_planned(const JsonReader& whole) {
  (void)rotor::assess(decode_rotor(whole).pump);
}

std::vector<std::string> tags(const JsonReader& whole) {
  const auto limits = whole.optional("limits");
  const bool life = limits && limits->optional("life");
  return life ? std::vector<std::string>{"bearing-life"} : std::vector<std::string>{};
}

std::vector<Limit> limits(Judged judged, const JsonReader& whole) {
  const RotorSheet sheet = decode_rotor(whole);
  const rotor::RotorLimits& all = sheet.pump.limits;
  const std::string& source = source_of(judged, all);
  const bool usual = source == source_of(judged, rotor::usual_limits());
  Limit limit;
  limit.id = fmt::format("rotor/{}", what_of(judged));
  limit.rank = usual ? Rank::standard : Rank::job;
  limit.asks = asks(judged, sheet, all);
  limit.source = {source, "", "", usual ? Obtained::read : Obtained::shop_rule, ""};
  return {std::move(limit)};
}

RotorResult compute(const JsonReader& whole) {
  RotorSheet sheet = decode_rotor(whole);
  rotor::RotorAssessment finding = rotor::assess(sheet.pump);
  return {std::move(sheet), std::move(finding)};
}

SheetMeasured measure(Judged judged, const RotorResult& result) {
  const auto& verdicts = result.finding.verdicts;
  const auto verdict = std::find_if(verdicts.begin(), verdicts.end(),
                                    [&](const RotorVerdict& v) { return v.what == what_of(judged); });
  SheetMeasured out;
  if (verdict == verdicts.end()) {
    out.blocked = Reason::input_missing;
    return out;
  }
  out.kept = verdict->outcome == Outcome::pass;
  if (verdict->outcome == Outcome::unproven) out.blocked = held_back(verdict->reason);
  out.remarks = {reason_text(verdict->reason)};
  return out;
}

std::vector<SheetLine> lines(const RotorResult& result) {
  const RotorSheet& sheet = result.sheet;
  const rotor::RotorAssessment& finding = result.finding;
  const auto same = [](const std::string& text) { return Text{text, text}; };
  const auto length = [&](Length l) { return small_text(sheet, l); };
  std::vector<SheetLine> out{
      {{"radial thrust", "empuje radial"},
       same(range_text(finding.thrust, [&](Force f) { return force_text(sheet, f); }))},
      {{"deflection at the seal's faces", "flecha en las caras del cierre"},
       same(range_text(finding.seal_deflection, length))},
      {{"deflection at the impeller", "flecha en el impulsor"},
       same(range_text(finding.impeller_deflection, length))},
      {{"life of both bearings, L10", "vida de ambos rodamientos, L10"},
       same(range_text(finding.system_life, hours_text))}};
  if (!finding.critical.forward.empty())
    out.push_back({{"first critical speed", "primera velocidad crítica"},
                   same(speed_text(finding.critical.forward.front()))});
  return out;
}

}  // namespace pumpwright::job::shaft

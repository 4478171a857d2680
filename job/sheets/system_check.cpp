#include "job/sheets/system_check.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"
#include "job/sheets/system_wording.h"

namespace pumpwright::job::running {
namespace {

Text same(const std::string& text) {
  return {text, text};
}

Reason held_back(MotorReason reason) {
  switch (reason) {
    case MotorReason::in_service_factor:
      return Reason::inside_uncertainty;
    case MotorReason::supply_too_uneven:
      return Reason::test_proves_nothing;
    default:
      return Reason::not_computable;
  }
}

Text sentence(Text text) {
  for (auto* words : {&text.en, &text.es})
    *words += ".";
  return text;
}

// What was read at the motor, as one line; empty while nothing was.
std::string as_read(const MotorReadings& read) {
  std::vector<std::string> parts;
  if (read.speed) parts.push_back(format_significant(*read.speed, unit_with_symbol("rpm", Kind::speed), 4));
  if (read.current) parts.push_back(fmt::format("{:.4g} A", read.current->value()));
  if (read.input) parts.push_back(format_significant(*read.input, unit_with_symbol("kW", Kind::power), 3));
  if (read.lines)
    parts.push_back(fmt::format("{:.4g}, {:.4g}, {:.4g} V", (*read.lines)[0].value(),
                                (*read.lines)[1].value(), (*read.lines)[2].value()));
  std::string out;
  for (const auto& part : parts)
    out += (out.empty() ? "" : ", ") + part;
  return out;
}

void put_load(std::vector<SheetLine>& out, const Text& name, std::optional<double> load,
              const Text& note = {}) {
  if (!load) return;
  const std::string share = percent_text(*load, 0);
  out.push_back({name, {share + note.en, share + note.es}});
}

void put_motor(std::vector<SheetLine>& out, const SystemFinding& f) {
  const MotorLoads& loads = f.loads;
  put_load(out, {"motor, by the curve", "motor, por la curva"}, loads.by_curve);
  put_load(out, {"motor, by its input", "motor, por su entrada"}, loads.by_power);
  put_load(out, {"motor, by current", "motor, por corriente"}, loads.by_current,
           {" (rough: remembered formula)", " (aproximado: fórmula recordada)"});
  put_load(out, {"motor, by slip", "motor, por deslizamiento"}, loads.by_slip,
           {" (rough: the plate's slip may be 20 % off)",
            " (aproximado: el deslizamiento de placa puede errar 20 %)"});
  if (f.unbalance) {
    const std::string uneven = percent_text(*f.unbalance, 2), left = percent_text(*f.derating, 0);
    out.push_back({{"voltage unbalance", "desequilibrio de tensión"},
                   {fmt::format("{}: may give {} of its rating", uneven, left),
                    fmt::format("{}: puede dar el {} de su potencia", uneven, left)}});
  }
}

void put_wanted(std::vector<SheetLine>& out, const SystemSheet& sheet, const SystemFinding& f) {
  if (!f.throttle_m) return;
  const PumpUnits units = units_of(sheet);
  const std::string head = units.head_text(std::abs(*f.throttle_m));
  Text text{"a valve takes " + head, "una válvula toma " + head};
  if (*f.throttle_m < 0) text = {"the pumps are " + head + " short", "a las bombas les faltan " + head};
  if (f.speed_for_wanted) {
    const std::string rpm =
        fmt::format("{:.0f} rpm", *f.speed_for_wanted * sheet.pump_speed.value() * 30 / pi);
    text = {text.en + ", or " + rpm, text.es + ", o " + rpm};
  }
  const std::string flow = units.flow_text(sheet.wanted_flow->value());
  out.push_back({{"for " + flow, "para " + flow}, text});
}

}  // namespace

void try_planned(const JsonReader& whole) {
  (void)system_finding(decode_system(whole));
}

std::vector<Limit> limits(const JsonReader& whole) {
  const SystemSheet sheet = decode_system(whole);
  Limit limit;
  limit.id = "system/motor-plate";
  limit.rank = Rank::job;
  if (sheet.motor) {
    const std::string& rated = sheet.motor->plate;
    limit.asks = {"pump and plant meet, the motor within " + rated,
                  "bomba e instalación se cortan, el motor dentro de " + rated};
    limit.source = {"the motor's plate, as entered", "", "", Obtained::shop_rule, ""};
  } else {
    limit.asks = {"pump and plant meet on the known curve",
                  "bomba e instalación se cortan en la curva conocida"};
    limit.source = {"this job's make-up, as entered", "", "", Obtained::shop_rule, ""};
  }
  return {std::move(limit)};
}

SystemResult compute(const JsonReader& whole) {
  SystemSheet sheet = decode_system(whole);
  SystemFinding finding = system_finding(sheet);
  return {std::move(sheet), std::move(finding)};
}

SheetMeasured measure(const SystemResult& result) {
  const auto& [sheet, finding] = result;
  SheetMeasured out;
  out.kept = finding.outcome == Outcome::pass;
  if (finding.outcome == Outcome::unproven) out.blocked = held_back(finding.reason);
  if (sheet.motor) out.as_written = as_read(sheet.motor->read);
  out.remarks.push_back(sentence(headline_text(sheet, finding)));
  if (const Text differ = loads_disagree_text(finding); !differ.empty()) out.remarks.push_back(differ);
  return out;
}

std::vector<SheetLine> lines(const SystemResult& result) {
  const auto& [sheet, f] = result;
  const PumpUnits units = units_of(sheet);
  std::vector<SheetLine> out;
  out.push_back({{"pump and plant meet at", "bomba e instalación se cortan a"},
                 same(units.flow_text(f.point.flow_m3_s) + ", " + units.head_text(f.point.head_m))});
  if (f.one_alone)
    out.push_back(
        {{"one pump alone", "una bomba sola"},
         same(units.flow_text(f.one_alone->flow_m3_s) + ", " + units.head_text(f.one_alone->head_m))});
  put_wanted(out, sheet, f);
  if (f.factors)
    out.push_back({{"on this liquid (ANSI/HI 9.6.7)", "con este líquido (ANSI/HI 9.6.7)"},
                   same(fmt::format("Q × {:.3f}, H × {:.3f}, η × {:.3f}", f.factors->flow,
                                    f.factors->head_at(1), f.factors->efficiency))});
  if (f.power_w)
    out.push_back({{"power of one pump", "potencia de una bomba"}, same(units.power_text(*f.power_w))});
  if (f.efficiency)
    out.push_back({{"efficiency there", "rendimiento ahí"}, same(percent_text(*f.efficiency))});
  put_motor(out, f);
  return out;
}

}  // namespace pumpwright::job::running

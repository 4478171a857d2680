// What `pumpwright system` prints, for people and as JSON.
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/display_text.h"
#include "cli/input_file.h"
#include "cli/json_values.h"
#include "cli/system_question.h"
#include "cli/verdict_word.h"
#include "job/sheets/pump_units.h"
#include "job/sheets/system_wording.h"

namespace pumpwright {
namespace {

using job::percent_text;
using job::PumpUnits;

constexpr std::size_t text_width = 110;

double rpm_of(const job::SystemSheet& sheet, double factor) {
  return factor * sheet.pump_speed.value() * 30 / pi;
}

class Sheet {
 public:
  Sheet(const SystemQuestion& q, const job::SystemFinding& f, bool colour)
      : q_(q), sheet_(q.sheet), f_(f), u_(job::units_of(q.sheet)), colour_(colour) {}

  std::string text() const {
    return fmt::format("{}: {}\n\n{}\n{}\nWhere they meet\n{}{}{}{}{}", shown_name(q_.file),
                       one_line(sheet_.name), verdict_word(code(f_.outcome), colour_),
                       wrapped(job::headline_text(sheet_, f_).en, text_width, 2), point(), viscosity(),
                       pipes(), motor(), cautions());
  }

 private:
  std::string point() const {
    TextTable table({Align::left, Align::left});
    table.add({"pumps", fmt::format("{} in parallel, {} in series, {:.0f} rpm", sheet_.parallel,
                                    sheet_.series, rpm_of(sheet_, sheet_.speed))});
    table.add({"flow, head", u_.flow_text(f_.point.flow_m3_s) + ", " + u_.head_text(f_.point.head_m)});
    if (f_.one_alone)
      table.add({"one pump alone", u_.flow_text(f_.one_alone->flow_m3_s) + ", " +
                                       u_.head_text(f_.one_alone->head_m) + " (" +
                                       hydraulics::word_for(f_.one_alone->meeting) + ")"});
    if (f_.power_w) table.add({"power of one pump", u_.power_text(*f_.power_w)});
    if (f_.efficiency) table.add({"efficiency", percent_text(*f_.efficiency)});
    if (f_.power_peak_w) table.add({"most power over the known curve", u_.power_text(*f_.power_peak_w)});
    if (f_.throttle_m)
      table.add({"for " + u_.flow_text(sheet_.wanted_flow->value()),
                 *f_.throttle_m >= 0 ? "a valve takes " + u_.head_text(*f_.throttle_m)
                                     : "the pumps are " + u_.head_text(-*f_.throttle_m) + " short"});
    if (f_.speed_for_wanted)
      table.add({"  or a speed of", fmt::format("{:.0f} rpm", rpm_of(sheet_, *f_.speed_for_wanted))});
    return table.text(2);
  }

  std::string viscosity() const {
    std::string text = fmt::format("\nThe liquid\n  {}, {:.1f} kg/m³, {:.3g} cSt\n", sheet_.liquid->name(),
                                   f_.density_kg_m3, f_.viscosity_m2_s * 1e6);
    if (f_.factors)
      text += wrapped(
          fmt::format(
              "The water curve is corrected by ANSI/HI 9.6.7 (formulas read in restatements): B {:.2f}, "
              "flow × {:.3f}, head at the best point × {:.3f}, efficiency × {:.3f}.{}",
              f_.factors->b, f_.factors->flow, f_.factors->head_at(1), f_.factors->efficiency,
              f_.factors->outside.empty()
                  ? ""
                  : fmt::format(" Outside the data behind it: {}.", fmt::join(f_.factors->outside, ", "))),
          text_width, 2);
    if (f_.water_duty)
      text += wrapped(
          fmt::format("To give {} at {} on this liquid, choose a pump for {} at {} on water (B {:.2f}; this "
                      "formula is remembered).",
                      u_.flow_text(sheet_.viscous_duty->first.value()),
                      u_.head_text(sheet_.viscous_duty->second.value()),
                      u_.flow_text(f_.water_duty->flow.value()), u_.head_text(f_.water_duty->head.value()),
                      f_.water_duty->factors.b),
          text_width, 2);
    return text;
  }

  std::string pipes() const {
    if (f_.losses.empty()) return "";
    TextTable table({Align::left, Align::right, Align::right, Align::right, Align::right, Align::left});
    table.add({"pipe", "velocity", "Reynolds", "friction f", "head lost"});
    for (std::size_t i = 0; i < f_.losses.size(); ++i) {
      const auto& l = f_.losses[i];
      table.add({u_.diameter_text(sheet_.plant.pipes[i].bore.value()),
                 fmt::format("{:.2f} m/s", l.velocity.value()), fmt::format("{:.3g}", l.reynolds),
                 fmt::format("{:.4f}", l.friction), u_.head_text(l.head.value()),
                 l.transitional ? "between laminar and turbulent: uncertain" : ""});
    }
    return "\nThe plant (Darcy-Weisbach, Colebrook)\n" + table.text(2);
  }

  std::string motor() const {
    if (!sheet_.motor) return "";
    TextTable table({Align::left, Align::left});
    table.add({"rated", fmt::format("{}, service factor {:g}", u_.power_text(sheet_.motor->rated.value()),
                                    sheet_.motor->service_factor)});
    const job::MotorLoads& loads = f_.loads;
    if (loads.by_curve) table.add({"load by the curve", percent_text(*loads.by_curve, 0)});
    if (loads.by_power) table.add({"load by input power", percent_text(*loads.by_power, 0)});
    if (loads.by_current)
      table.add({"load by current", percent_text(*loads.by_current, 0) + " (formula remembered)"});
    if (loads.by_slip)
      table.add({"load by slip",
                 percent_text(*loads.by_slip, 0) + " (rough: the nameplate's slip may be 20 % off)"});
    if (f_.unbalance)
      table.add(
          {"voltage unbalance", fmt::format("{}: may give {} of its rating (NEMA MG 1)",
                                            percent_text(*f_.unbalance, 2), percent_text(*f_.derating, 0))});
    const std::string differ = job::loads_disagree_text(f_).en;
    return "\nThe motor\n" + table.text(2) + (differ.empty() ? "" : wrapped(differ, text_width, 2));
  }

  std::string cautions() const {
    std::string text = "\nMind\n";
    if (sheet_.motor && sheet_.motor->on_drive)
      text += wrapped(
          "On a variable-speed drive: a clamp meter on the drive's supply side reads wrong for the motor, "
          "and slip and "
          "current loads above hold at the nameplate's frequency only. Take the drive's own figures.",
          text_width, 2);
    text += wrapped(
        "Take current with the guard on and away from live parts. Prove the turning direction with the "
        "casing filled and "
        "vented. A pump against a shut valve heats its liquid: hot liquid and pressure hurt. Local rules "
        "come first.",
        text_width, 2);
    return text;
  }

  const SystemQuestion& q_;
  const job::SystemSheet& sheet_;
  const job::SystemFinding& f_;
  PumpUnits u_;
  bool colour_;
};

OrderedJson point_json(const std::optional<hydraulics::OperatingPoint>& p) {
  if (!p) return nullptr;
  return {{"meeting", hydraulics::word_for(p->meeting)},
          {"flow_m3_s", json_number(p->flow_m3_s)},
          {"head_m", json_number(p->head_m)}};
}

OrderedJson factors_json(const std::optional<hydraulics::ViscosityFactors>& f) {
  if (!f) return nullptr;
  return {{"b", json_number(f->b)},
          {"flow", json_number(f->flow)},
          {"head_at_best", json_number(f->head_at(1))},
          {"efficiency", json_number(f->efficiency)},
          {"outside", f->outside}};
}

OrderedJson losses_json(const job::SystemFinding& f) {
  auto list = OrderedJson::array();
  for (const auto& l : f.losses)
    list.push_back({{"head_m", json_number(l.head.value())},
                    {"velocity_m_s", json_number(l.velocity.value())},
                    {"reynolds", json_number(l.reynolds)},
                    {"friction", json_number(l.friction)},
                    {"transitional", l.transitional}});
  return list;
}

}  // namespace

std::string system_text(const SystemQuestion& q, const job::SystemFinding& f, bool colour) {
  return Sheet(q, f, colour).text();
}

std::string system_json(const SystemQuestion& q, const job::SystemFinding& f) {
  OrderedJson json = {{"file", q.file},
                      {"name", q.sheet.name},
                      {"verdict", code(f.outcome)},
                      {"reason", job::word_for(f.reason)},
                      {"density_kg_m3", json_number(f.density_kg_m3)},
                      {"viscosity_m2_s", json_number(f.viscosity_m2_s)},
                      {"viscosity_factors", factors_json(f.factors)},
                      {"point", point_json(f.point)},
                      {"one_alone", point_json(f.one_alone)},
                      {"losses", losses_json(f)},
                      {"power_W", json_number(f.power_w)},
                      {"power_peak_W", json_number(f.power_peak_w)},
                      {"efficiency", json_number(f.efficiency)},
                      {"throttle_m", json_number(f.throttle_m)},
                      {"speed_for_wanted_rad_s", nullptr},
                      {"load_by_power", json_number(f.loads.by_power)},
                      {"load_by_current", json_number(f.loads.by_current)},
                      {"load_by_slip", json_number(f.loads.by_slip)},
                      {"voltage_unbalance", json_number(f.unbalance)},
                      {"derating", json_number(f.derating)},
                      {"water_duty", nullptr}};
  if (f.speed_for_wanted) json["speed_for_wanted_rad_s"] = *f.speed_for_wanted * q.sheet.pump_speed.value();
  if (f.water_duty)
    json["water_duty"] = {{"flow_m3_s", json_number(f.water_duty->flow.value())},
                          {"head_m", json_number(f.water_duty->head.value())},
                          {"b", json_number(f.water_duty->factors.b)}};
  return json_text(json);
}

}  // namespace pumpwright

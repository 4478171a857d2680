// What `pumpwright rotor --json` prints.
#include "cli/json_values.h"
#include "cli/rotor_report.h"

namespace pumpwright {
namespace {

using job::RotorSheet;
using rotor::Range;
using rotor::RotorAssessment;

template <class Q>
OrderedJson range_json(const Range<Q>& r, double unit = 1) {
  return {{"least", json_number(r.least.value() / unit)},
          {"expected", json_number(r.expected.value() / unit)},
          {"most", json_number(r.most.value() / unit)}};
}

constexpr double hour_s = 3600;

OrderedJson bearings_json(const RotorSheet& file, const RotorAssessment& a) {
  auto list = OrderedJson::array();
  for (std::size_t i = 0; i < a.bearings.size(); ++i) {
    const rotor::BearingFinding& b = a.bearings[i];
    list.push_back({{"name", file.bearing_names[i]},
                    {"radial_N", range_json(b.radial)},
                    {"axial_N", json_number(b.axial.value())},
                    {"equivalent_N", range_json(b.equivalent)},
                    {"L10_h", range_json(b.life, hour_s)}});
  }
  return list;
}

OrderedJson line_json(const RotorAssessment& a) {
  auto list = OrderedJson::array();
  for (const rotor::BentPoint& p : a.line)
    list.push_back({{"at_m", json_metres(p.at)},
                    {"thrust_m", json_metres(p.thrust)},
                    {"weight_m", json_metres(p.weight)},
                    {"most_m", json_metres(p.most)}});
  return list;
}

OrderedJson speeds_json(const std::vector<Speed>& speeds) {
  auto list = OrderedJson::array();
  for (const Speed& speed : speeds)
    list.push_back(json_number(speed.value()));
  return list;
}

OrderedJson modes_json(const RotorAssessment& a) {
  auto list = OrderedJson::array();
  for (const rotor::WhirlMode& mode : a.modes)
    list.push_back({{"frequency_rad_s", json_number(mode.frequency.value())}, {"forward", mode.forward}});
  return list;
}

OrderedJson limits_json(const rotor::RotorLimits& limits) {
  return {{"deflection_m", json_metres(limits.deflection)},
          {"deflection_source", limits.deflection_source},
          {"separation", limits.separation},
          {"separation_source", limits.separation_source},
          {"life_h", limits.life ? json_number(limits.life->value() / hour_s) : OrderedJson(nullptr)},
          {"life_source", limits.life ? OrderedJson(limits.life_source) : OrderedJson(nullptr)}};
}

OrderedJson verdicts_json(const RotorAssessment& a) {
  auto list = OrderedJson::array();
  for (const rotor::RotorVerdict& v : a.verdicts)
    list.push_back({{"what", v.what}, {"verdict", code(v.outcome)}, {"reason", code(v.reason)}});
  return list;
}

}  // namespace

std::string rotor_json(const std::string& path, const RotorSheet& file, const RotorAssessment& a) {
  const rotor::RotorCase& pump = file.pump;
  const rotor::RadialFactor& k = pump.pump.factor;
  OrderedJson json = {
      {"file", path},
      {"name", file.name},
      {"speed_rad_s", json_number(pump.speed.value())},
      {"verdicts", verdicts_json(a)},
      {"limits", limits_json(pump.limits)},
      {"radial_factor",
       {{"least", k.least}, {"expected", k.expected}, {"most", k.most}, {"source", k.source}}},
      {"radial_thrust_N", range_json(Range<Force>{a.thrust.least, a.thrust.expected, a.thrust.most})},
      {"unbalance_force_N", json_number(a.unbalance_force.value())},
      {"seal_deflection_m", range_json(a.seal_deflection)},
      {"seal_tilt_rad", range_json(a.seal_tilt)},
      {"impeller_deflection_m", range_json(a.impeller_deflection)},
      {"impeller_tilt_rad", range_json(a.impeller_tilt)},
      {"bearings", bearings_json(file, a)},
      {"system_L10_h", range_json(a.system_life, hour_s)},
      {"modes", modes_json(a)},
      {"critical_forward_rad_s", speeds_json(a.critical.forward)},
      {"critical_backward_rad_s", speeds_json(a.critical.backward)},
      {"separation", json_number(a.separation)},
      {"stiffness_needed_N_m",
       a.stiffness_needed ? json_number(a.stiffness_needed->value()) : OrderedJson(nullptr)},
      {"impeller_inertia_estimated", file.inertia_estimated},
      {"line", line_json(a)}};
  return json_text(json);
}

}  // namespace pumpwright

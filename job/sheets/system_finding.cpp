#include "job/sheets/system_finding.h"

#include <algorithm>
#include <cmath>

#include "engine/hydraulics/curve_search.h"
#include "job/decode.h"

namespace pumpwright::job {
namespace {

using hydraulics::FlowCurve;
using hydraulics::Meeting;
using hydraulics::PumpCurves;

constexpr double cold_water_kg_m3 = 998.2;   // what curves on cold water are given for (20 °C)
constexpr double loads_agree_within = 0.15;  // of rated power; our own choice

// A curve's points on the liquid at hand.
struct CurvePoints {
  std::vector<double> flow, head, power_flow, power;
};

std::optional<hydraulics::WaterBest> best_of(const SystemSheet& sheet) {
  if (sheet.best) {
    auto best = *sheet.best;
    best.head = best.head / static_cast<double>(sheet.stages);
    return best;
  }
  if (!sheet.pump.front().power_w) return std::nullopt;
  std::vector<double> flow, head, power;
  for (const WaterPoint& p : sheet.pump) {
    flow.push_back(p.flow_m3_s);
    head.push_back(p.head_m);
    power.push_back(*p.power_w);
  }
  const PumpCurves curves{FlowCurve::through(flow, head, sheet.head_curve),
                          FlowCurve::through(flow, power, sheet.power_curve), cold_water_kg_m3};
  const auto best = hydraulics::best_efficiency_point(curves);
  if (best.at_end) return std::nullopt;
  return hydraulics::WaterBest{cubic_metres_per_second(best.flow_m3_s), metres(best.head_m / sheet.stages),
                               sheet.pump_speed};
}

// Flow, head and efficiency by the factors; power from them, at the liquid's density. On a thick liquid the
// power at no flow is not known.
CurvePoints corrected(const SystemSheet& sheet, const SystemFinding& f, const hydraulics::WaterBest* best) {
  CurvePoints out;
  for (const WaterPoint& p : sheet.pump) {
    const double part = best != nullptr ? p.flow_m3_s / best->flow.value() : 0;
    const double flow_factor = f.factors ? f.factors->flow : 1,
                 head_factor = f.factors ? f.factors->head_at(part) : 1;
    out.flow.push_back(p.flow_m3_s * flow_factor);
    out.head.push_back(p.head_m * head_factor);
    if (!p.power_w || (f.factors && p.flow_m3_s == 0)) continue;
    const double efficiency_factor = f.factors ? f.factors->efficiency : 1;
    out.power_flow.push_back(out.flow.back());
    out.power.push_back(*p.power_w * f.density_kg_m3 / cold_water_kg_m3 * flow_factor * head_factor /
                        efficiency_factor);
  }
  return out;
}

void put_liquid(const SystemSheet& sheet, SystemFinding& f) {
  const AbsolutePressure vapour = sheet.liquid->saturation_pressure(sheet.temperature);
  const AbsolutePressure p{std::max(pascals(101'325), vapour.value)};
  const Density density = sheet.liquid->density(sheet.temperature, p);
  f.density_kg_m3 = density.value();
  f.viscosity_m2_s = sheet.own_viscosity ? sheet.own_viscosity->value()
                                         : (sheet.liquid->viscosity(sheet.temperature, p) / density).value();
}

void put_viscosity(const SystemSheet& sheet, SystemFinding& f,
                   const std::optional<hydraulics::WaterBest>& best) {
  const auto nu = square_metres_per_second(f.viscosity_m2_s);
  if (sheet.viscous_duty)
    f.water_duty = placed("/viscous_duty", [&] {
      return hydraulics::water_duty(sheet.viscous_duty->first, sheet.viscous_duty->second, nu);
    });
  if (!best) {
    // Thinner than 4 cSt no pump of ordinary size needs a correction; above it one can not be left out
    // unsaid.
    if (f.viscosity_m2_s > 4e-6)
      throw BadInput({.field = "best",
                      .place = "/pump",
                      .value = "nothing",
                      .expected =
                          "the best efficiency point on water, or power at every point: this liquid is thick "
                          "enough to change the curve"});
    return;
  }
  const auto factors = placed("/pump/best", [&] { return hydraulics::viscosity_factors(*best, nu); });
  if (factors.b > 1) f.factors = factors;
}

void put_motor_loads(const SystemMotor& m, SystemFinding& f) {
  const auto& r = m.read;
  if (r.speed && m.synchronous && m.nameplate_speed)
    f.loads.by_slip = hydraulics::load_by_slip(*m.synchronous, *r.speed, *m.nameplate_speed);
  if (r.current && m.nameplate_current && m.no_load_current)
    f.loads.by_current = hydraulics::load_by_current(*r.current, *m.nameplate_current, *m.no_load_current);
  if (r.input && m.efficiency) f.loads.by_power = hydraulics::load_by_power(*r.input, m.rated, *m.efficiency);
  if (!r.lines) return;
  f.unbalance = hydraulics::voltage_unbalance(*r.lines);
  f.derating = hydraulics::unbalance_derating(*f.unbalance);
}

void judge_motor(const SystemSheet& sheet, SystemFinding& f) {
  if (f.point.meeting != Meeting::found) {
    f.reason = MotorReason::no_point;
    return;
  }
  f.outcome = Outcome::pass;
  if (!sheet.motor) return;
  const auto load = f.deciding_load();
  const double may_give = f.derating.value_or(1);
  if (f.unbalance && *f.unbalance > hydraulics::most_voltage_unbalance) {
    f.outcome = Outcome::unproven;
    f.reason = MotorReason::supply_too_uneven;
  } else if (!load) {
    f.outcome = Outcome::unproven;
    f.reason = MotorReason::power_unknown;
  } else if (*load <= may_give) {
    f.reason = MotorReason::within_rating;
  } else if (*load <= may_give * sheet.motor->service_factor) {
    f.outcome = Outcome::unproven;
    f.reason = MotorReason::in_service_factor;
  } else {
    f.outcome = Outcome::fail;
    f.reason = MotorReason::over_service_factor;
  }
}

void put_power(const CurvePoints& points, const SystemSheet& sheet, const hydraulics::PumpGroup& group,
               SystemFinding& f) {
  if (points.power.empty()) return;
  const auto power =
      placed("/pump", [&] { return FlowCurve::through(points.power_flow, points.power, sheet.power_curve); });
  const double cube = std::pow(group.speed, 3);
  const double one = group.one_flow_m3_s(f.point.flow_m3_s);
  if (power.reaches(one)) {
    f.power_w = cube * power.at(one);
    const double hydraulic_w = f.density_kg_m3 * hydraulics::standard_gravity_m_s2 * f.point.flow_m3_s /
                               group.parallel * f.point.head_m / group.series;
    f.efficiency = hydraulic_w / *f.power_w;
    if (sheet.motor) f.loads.by_curve = *f.power_w / sheet.motor->rated.value();
  }
  double peak_w = 0;
  for (int i = 0; i <= 200; ++i)
    peak_w = std::max(peak_w,
                      power.at(power.lowest_m3_s() + (power.highest_m3_s() - power.lowest_m3_s()) * i / 200));
  f.power_peak_w = cube * peak_w;
}

}  // namespace

std::optional<double> SystemFinding::deciding_load() const {
  if (!loads.by_curve || !loads.by_power) return loads.by_curve ? loads.by_curve : loads.by_power;
  return std::max(*loads.by_curve, *loads.by_power);
}

bool SystemFinding::loads_disagree() const {
  return loads.by_curve && loads.by_power && std::abs(*loads.by_curve - *loads.by_power) > loads_agree_within;
}

SystemFinding system_finding(const SystemSheet& sheet) {
  SystemFinding f;
  put_liquid(sheet, f);
  const auto best = placed("/pump", [&] { return best_of(sheet); });
  put_viscosity(sheet, f, best);
  const CurvePoints points = corrected(sheet, f, best ? &*best : nullptr);
  hydraulics::PumpGroup group{
      placed("/pump", [&] { return FlowCurve::through(points.flow, points.head, sheet.head_curve); }),
      sheet.parallel, sheet.series, sheet.speed};
  hydraulics::Plant plant = sheet.plant;
  plant.viscosity = square_metres_per_second(f.viscosity_m2_s);
  f.point = placed("/plant", [&] { return hydraulics::operating_point(group, plant); });
  for (const auto& pipe : plant.pipes)
    f.losses.push_back(
        hydraulics::pipe_loss(pipe, cubic_metres_per_second(f.point.flow_m3_s), plant.viscosity));
  if (sheet.parallel > 1 || sheet.series > 1)
    f.one_alone = hydraulics::operating_point({group.head, 1, 1, group.speed}, plant);
  if (sheet.wanted_flow)
    placed("/wanted_flow", [&] {
      f.throttle_m = hydraulics::throttled_head_m(group, plant, sheet.wanted_flow->value());
      f.speed_for_wanted = hydraulics::speed_for_flow(group, plant, sheet.wanted_flow->value());
      return 0;
    });
  put_power(points, sheet, group, f);
  if (sheet.motor) placed("/motor", [&] { return put_motor_loads(*sheet.motor, f), 0; });
  judge_motor(sheet, f);
  f.group = group;
  f.plant = plant;
  return f;
}

const char* word_for(MotorReason reason) {
  switch (reason) {
    case MotorReason::no_motor:
      return "no-motor";
    case MotorReason::within_rating:
      return "within-rating";
    case MotorReason::in_service_factor:
      return "in-service-factor";
    case MotorReason::over_service_factor:
      return "over-service-factor";
    case MotorReason::supply_too_uneven:
      return "supply-too-uneven";
    case MotorReason::power_unknown:
      return "power-unknown";
    case MotorReason::no_point:
      return "no-point";
  }
  return "";
}

}  // namespace pumpwright::job

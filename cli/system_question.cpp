#include "cli/system_question.h"

#include <algorithm>
#include <cmath>

#include "cli/input_file.h"
#include "engine/hydraulics/curve_search.h"
#include "job/sheets/pump_test_sheet.h"

namespace pumpwright {
namespace {

using hydraulics::FlowCurve;
using hydraulics::Meeting;
using hydraulics::PumpCurves;

constexpr double cold_water_kg_m3 = 998.2;  // what curves on cold water are given for (20 °C)

// A curve's points on the liquid at hand.
struct CurvePoints {
  std::vector<double> flow, head, power_flow, power;
};

std::optional<hydraulics::WaterBest> best_of(const SystemFile& sheet) {
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
CurvePoints corrected(const SystemFile& sheet, const SystemFinding& f, const hydraulics::WaterBest* best) {
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

void put_liquid(const SystemFile& sheet, SystemFinding& f) {
  const AbsolutePressure vapour = sheet.liquid->saturation_pressure(sheet.temperature);
  const AbsolutePressure p{std::max(pascals(101'325), vapour.value)};
  const Density density = sheet.liquid->density(sheet.temperature, p);
  f.density_kg_m3 = density.value();
  f.viscosity_m2_s = sheet.own_viscosity ? sheet.own_viscosity->value()
                                         : (sheet.liquid->viscosity(sheet.temperature, p) / density).value();
}

void put_viscosity(const SystemFile& sheet, SystemFinding& f,
                   const std::optional<hydraulics::WaterBest>& best) {
  const auto nu = square_metres_per_second(f.viscosity_m2_s);
  if (sheet.viscous_duty)
    f.water_duty = job::placed("/viscous_duty", [&] {
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
  const auto factors = job::placed("/pump/best", [&] { return hydraulics::viscosity_factors(*best, nu); });
  if (factors.b > 1) f.factors = factors;
}

void put_motor_loads(const MotorFile& m, SystemFinding& f) {
  const auto& r = m.read;
  if (r.speed && m.synchronous && m.nameplate_speed)
    f.load_by_slip = hydraulics::load_by_slip(*m.synchronous, *r.speed, *m.nameplate_speed);
  if (r.current && m.nameplate_current && m.no_load_current)
    f.load_by_current = hydraulics::load_by_current(*r.current, *m.nameplate_current, *m.no_load_current);
  if (r.input && m.efficiency) f.load_by_power = hydraulics::load_by_power(*r.input, m.rated, *m.efficiency);
  if (!r.lines) return;
  f.unbalance = hydraulics::voltage_unbalance(*r.lines);
  f.derating = hydraulics::unbalance_derating(*f.unbalance);
}

void judge_motor(const SystemFile& sheet, SystemFinding& f) {
  if (f.point.meeting != Meeting::found) {
    f.reason = MotorReason::no_point;
    return;
  }
  f.outcome = Outcome::pass;
  if (!sheet.motor) return;
  const double allowed_w = sheet.motor->rated.value() * f.derating.value_or(1);
  if (!f.power_w) {
    f.outcome = Outcome::unproven;
    f.reason = MotorReason::power_unknown;
  } else if (*f.power_w <= allowed_w) {
    f.reason = MotorReason::within_rating;
  } else if (*f.power_w <= allowed_w * sheet.motor->service_factor) {
    f.outcome = Outcome::unproven;
    f.reason = MotorReason::in_service_factor;
  } else {
    f.outcome = Outcome::fail;
    f.reason = MotorReason::over_service_factor;
  }
}

void put_power(const CurvePoints& points, const SystemFile& sheet, const hydraulics::PumpGroup& group,
               SystemFinding& f) {
  if (points.power.empty()) return;
  const auto power = job::placed(
      "/pump", [&] { return FlowCurve::through(points.power_flow, points.power, sheet.power_curve); });
  const double cube = std::pow(group.speed, 3);
  const double one = group.one_flow_m3_s(f.point.flow_m3_s);
  if (power.reaches(one)) {
    f.power_w = cube * power.at(one);
    const double hydraulic_w = f.density_kg_m3 * hydraulics::standard_gravity_m_s2 * f.point.flow_m3_s /
                               group.parallel * f.point.head_m / group.series;
    f.efficiency = hydraulic_w / *f.power_w;
  }
  double peak_w = 0;
  for (int i = 0; i <= 200; ++i)
    peak_w = std::max(peak_w,
                      power.at(power.lowest_m3_s() + (power.highest_m3_s() - power.lowest_m3_s()) * i / 200));
  f.power_peak_w = cube * peak_w;
}

SystemFinding found(const SystemFile& sheet) {
  SystemFinding f;
  put_liquid(sheet, f);
  const auto best = job::placed("/pump", [&] { return best_of(sheet); });
  put_viscosity(sheet, f, best);
  const CurvePoints points = corrected(sheet, f, best ? &*best : nullptr);
  hydraulics::PumpGroup group{
      job::placed("/pump", [&] { return FlowCurve::through(points.flow, points.head, sheet.head_curve); }),
      sheet.parallel, sheet.series, sheet.speed};
  hydraulics::Plant plant = sheet.plant;
  plant.viscosity = square_metres_per_second(f.viscosity_m2_s);
  f.point = job::placed("/plant", [&] { return hydraulics::operating_point(group, plant); });
  for (const auto& pipe : plant.pipes)
    f.losses.push_back(
        hydraulics::pipe_loss(pipe, cubic_metres_per_second(f.point.flow_m3_s), plant.viscosity));
  if (sheet.parallel > 1 || sheet.series > 1)
    f.one_alone = hydraulics::operating_point({group.head, 1, 1, group.speed}, plant);
  if (sheet.wanted_flow)
    job::placed("/wanted_flow", [&] {
      f.throttle_m = hydraulics::throttled_head_m(group, plant, sheet.wanted_flow->value());
      f.speed_for_wanted = hydraulics::speed_for_flow(group, plant, sheet.wanted_flow->value());
      return 0;
    });
  put_power(points, sheet, group, f);
  if (sheet.motor) job::placed("/motor", [&] { return put_motor_loads(*sheet.motor, f), 0; });
  judge_motor(sheet, f);
  return f;
}

}  // namespace

SystemFinding answer(const SystemQuestion& q) {
  return naming_file(q.file, [&] { return found(q.sheet); });
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
    case MotorReason::power_unknown:
      return "power-unknown";
    case MotorReason::no_point:
      return "no-point";
  }
  return "";
}

}  // namespace pumpwright

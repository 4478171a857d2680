#include "engine/hydraulics/test_point.h"

#include <cmath>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

constexpr double rad_s_of_rpm = pi / 30;

void require_valid(const TestRig& rig) {
  for (const Length& height : {rig.suction_height, rig.discharge_height})
    require_between(height.value(), -100, 100, "height", "a height of a gauge from -100 m to 100 m");
  for (const Length& bore : {rig.suction_bore, rig.discharge_bore})
    require_between(bore.value(), 1e-3, 10, "bore", "a bore of a pipe from 1 mm to 10 m");
  require_between(rig.atmosphere.value.value(), 20e3, 120e3, "atmosphere",
                  "an absolute air pressure from 20 kPa to 120 kPa");
  require_that(rig.phases == 1 || rig.phases == 3, rig.phases, "phases", "1 or 3");
  if (rig.motor_efficiency)
    require_between(*rig.motor_efficiency, 0.05, 1, "motor efficiency", "an efficiency from 5 % to 100 %");
}

void require_valid(const TestPoint& p, const TestRig& rig) {
  require_between(p.flow.value(), 0, 100, "flow", "a flow from 0 to 100 m³/s");
  require_between(p.speed.value(), 10 * rad_s_of_rpm, 60'000 * rad_s_of_rpm, "speed",
                  "a speed from 10 to 60000 rpm");
  for (const GaugePressure& gauge : {p.suction, p.discharge})
    require_between(gauge.value.value(), -rig.atmosphere.value.value(), 1e8, "pressure",
                    "a gauge pressure from vacuum at this place to 100 MPa");
  const int ways =
      (p.shaft_power ? 1 : 0) + (p.torque ? 1 : 0) + (p.input_power ? 1 : 0) + (p.supply ? 1 : 0);
  require_that(ways <= 1, ways, "power", "one way of measuring power, or none");
}

double velocity_head_m(double flow_m3_s, double bore_m) {
  const double v_m_s = flow_m3_s / (pi / 4 * bore_m * bore_m);
  return v_m_s * v_m_s / (2 * standard_gravity_m_s2);
}

// Of the liquid in the pump; a suction below the vapour pressure is not the density's business.
double density_kg_m3(const TestPoint& p, const TestRig& rig, const fluid::Liquid& liquid) {
  const AbsolutePressure vapour = liquid.saturation_pressure(p.temperature);
  const Pressure mean = (p.suction.value + p.discharge.value) / 2.0 + rig.atmosphere.value;
  return liquid.density(p.temperature, {mean > vapour.value ? mean : vapour.value}).value();
}

void put_powers(PointResult& r, const TestPoint& p, const TestRig& rig) {
  if (p.input_power) r.input = *p.input_power;
  if (p.supply) r.input = input_power(*p.supply, rig.phases);
  if (p.shaft_power) r.shaft = *p.shaft_power;
  if (p.torque) r.shaft = watts(p.torque->value() * p.speed.value());
  if (r.input && rig.motor_efficiency) r.shaft = *r.input * *rig.motor_efficiency;
  for (const auto& power : {r.input, r.shaft})
    if (power) require_between(power->value(), 1e-3, 1e9, "power", "a power over 0, at most 1 GW");
  if (r.shaft) r.efficiency = r.hydraulic / *r.shaft;
  if (r.input) r.overall = r.hydraulic / *r.input;
}

}  // namespace

Power input_power(const SupplyReading& supply, int phases) {
  require_between(supply.voltage.value(), 1, 1e5, "voltage", "a voltage between lines from 1 V to 100 kV");
  require_between(supply.current.value(), 1e-3, 1e5, "current", "a line current from 1 mA to 100 kA");
  require_between(supply.power_factor, 0.01, 1, "power factor", "a power factor from 0.01 to 1");
  require_that(phases == 1 || phases == 3, phases, "phases", "1 or 3");
  const double factor = phases == 3 ? std::sqrt(3.0) : 1.0;
  return watts(factor * supply.voltage.value() * supply.current.value() * supply.power_factor);
}

PointResult result_of(const TestPoint& p, const TestRig& rig, const fluid::Liquid& liquid) {
  require_valid(rig);
  require_valid(p, rig);
  const double q_m3_s = p.flow.value();
  const double density = density_kg_m3(p, rig, liquid);
  const double weight_n_m3 = density * standard_gravity_m_s2;
  const double suction_velocity_m = velocity_head_m(q_m3_s, rig.suction_bore.value());
  const double head_m = (p.discharge.value - p.suction.value).value() / weight_n_m3 +
                        (rig.discharge_height - rig.suction_height).value() +
                        velocity_head_m(q_m3_s, rig.discharge_bore.value()) - suction_velocity_m;
  PointResult r;
  r.flow = p.flow;
  r.head = metres(head_m);
  r.density = kilograms_per_cubic_metre(density);
  const Pressure over_vapour =
      p.suction.value + rig.atmosphere.value - liquid.saturation_pressure(p.temperature).value;
  r.suction_head =
      metres(over_vapour.value() / weight_n_m3 + rig.suction_height.value() + suction_velocity_m);
  r.hydraulic = watts(weight_n_m3 * q_m3_s * head_m);
  put_powers(r, p, rig);
  return r;
}

SpeedReduced at_speed(const PointResult& r, Speed test, Speed rated) {
  require_that(test.value() > 0, test.value(), "speed", "a speed over 0");
  require_that(rated.value() > 0, rated.value(), "rated speed", "a speed over 0");
  const double k = rated / test;
  SpeedReduced reduced{r.flow * k, r.head * (k * k), {}};
  if (r.shaft) reduced.shaft = *r.shaft * (k * k * k);
  return reduced;
}

}  // namespace pumpwright::hydraulics

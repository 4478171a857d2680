// One point of a pump's performance test: from what the instruments read to total head, powers and
// efficiency, at the test speed and reduced to the rated one.
//
// H = (pd - ps)/(ρ g) + (zd - zs) + (vd² - vs²)/(2 g), v = 4 Q/(π d²) (ISO 9906:2012 clause 4, remembered;
// the formula read in a public course repository). Gauge lines are taken as full of the liquid: a height is
// that of the gauge's middle over the pump's datum. Where a suction line holds air, the height of the tapping
// is to be entered instead. Reduced by the affinity laws: Q n_r/n, H (n_r/n)², P (n_r/n)³ ρ_r/ρ; efficiency
// stays.
#pragma once

#include <optional>

#include <boost/units/systems/si.hpp>

#include "engine/fluid/liquid.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

constexpr double standard_gravity_m_s2 = 9.80665;

using Voltage = units::quantity<si::electric_potential>;  // [V], between lines
using Current = units::quantity<si::current>;             // [A], of a line

// Electrical readings at the motor's supply. `power_factor` 0 (not included) to 1.
struct SupplyReading {
  Voltage voltage;
  Current current;
  double power_factor = 0;
};

// What stands still during the test.
struct TestRig {
  Length suction_height, discharge_height;  // of the gauges over the pump's datum, -100 m to 100 m
  Length suction_bore, discharge_bore;      // of the pipes at the tappings, 1 mm to 10 m
  AbsolutePressure atmosphere;              // of the place, 20 kPa to 120 kPa
  int phases = 3;                           // 1 or 3, of the supply
  std::optional<double> motor_efficiency;   // 0.05 to 1; turns input power into shaft power
};

// As read. Power in one of four ways, or in none.
struct TestPoint {
  VolumeFlow flow;                   // 0 to 100 m³/s
  GaugePressure suction, discharge;  // not below vacuum
  Speed speed;                       // 10 to 60 000 r/min
  Temperature temperature;           // of the liquid
  std::optional<Power> shaft_power;
  std::optional<Torque> torque;
  std::optional<Power> input_power;
  std::optional<SupplyReading> supply;
};

struct PointResult {
  VolumeFlow flow;
  Length head;          // total head
  Length suction_head;  // NPSH available at the datum: absolute total suction head less vapour
  Density density;
  Power hydraulic;             // ρ g Q H
  std::optional<Power> input;  // electrical
  std::optional<Power> shaft;
  std::optional<double> efficiency;  // hydraulic / shaft
  std::optional<double> overall;     // hydraulic / input, wire to water
};

// BadInput "flow", "speed", "bore" … for what lies outside the ranges above, "power" when more than one way
// is given, "motor efficiency" when input power can not be turned into shaft power but is above it, and the
// liquid's own for the temperature.
PointResult result_of(const TestPoint& point, const TestRig& rig, const fluid::Liquid& liquid);

// A point at another speed; density the same. BadInput "speed" unless both are over 0.
struct SpeedReduced {
  VolumeFlow flow;
  Length head;
  std::optional<Power> shaft;
};
SpeedReduced at_speed(const PointResult& result, Speed test, Speed rated);

// Input power of a motor: √3 V I cos φ of three phases, V I cos φ of one.
Power input_power(const SupplyReading& supply, int phases);

}  // namespace pumpwright::hydraulics

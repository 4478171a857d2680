// What a falling gauge says about a leak, once the temperature has been taken out.
//
// Liquid: the volume that leaked is C (p1 - p2) + V (β - βv)(T2 - T1) plus what trapped air gave back,
// Va pa (1/p2 - 1/p1) in absolute pressures; C = V/K + Ce. β and K are the liquid's volumetric expansion and
// bulk modulus, βv the vessel's expansion, Ce its elastic give, Va the trapped air's volume at the
// atmosphere. A kelvin moves trapped water by some 3 bar (β K): without temperatures a liquid test says
// nothing. Gas: p2 is brought to the temperature of p1 (p2 T1/T2, absolute); the leak at the atmosphere is V
// (p1 - p2')/(t pa) (read; checked against its example).
#pragma once

#include <optional>

#include "engine/fluid/liquid.h"
#include "engine/hydraulics/performance_test.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

struct HoldReading {
  GaugePressure pressure;
  Temperature temperature;  // of the medium, not of the room
};

struct HoldTest {
  HoldReading start, end;
  Time held;      // 1 s to 30 days
  Volume volume;  // of the medium, 1 mL to 1000 m³
  AbsolutePressure atmosphere;
  // Standard uncertainties. A gauge's constant error drops out of the difference; a share of the reading and
  // reading it off do not.
  Pressure pressure_u{};                  // of one reading, independent
  double pressure_scale_u = 0;            // of the gauge's scale, as a part
  TemperatureDifference temperature_u{};  // of one reading, independent
  double volume_u = 0;                    // as a part
};

struct LiquidMedium {
  Pressure bulk_modulus;              // 0.1 to 10 GPa
  double expansion_per_k;             // volumetric, -1e-3 to 3e-3
  double vessel_expansion_per_k = 0;  // three times the metal's linear one, 0 to 2e-4
  double vessel_give_m3_pa = 0;       // dV/dp of the vessel, >= 0
  Volume trapped_air{};               // at the atmosphere, >= 0, at most the volume
  // Standard uncertainties, as a part of each.
  double bulk_modulus_u = 0.05, expansion_u = 0.05;
  Volume trapped_air_u{};
};

struct LeakFinding {
  Figure drop_pa;               // as read, start less end
  Figure drop_by_heat_pa;       // what the temperature alone did; positive: it fell
  Figure drop_by_leak_pa;       // the rest
  Figure leak_m3_s;             // of the liquid; of gas at the atmosphere
  double compliance_m3_pa = 0;  // of the whole: what a pascal is worth
};

// BadInput naming "held", "volume", "pressure" (not over vacuum), "bulk_modulus", "expansion", ….
LeakFinding liquid_leak(const HoldTest& test, const LiquidMedium& medium);
LeakFinding gas_leak(const HoldTest& test);

// Bulk modulus (at constant temperature) and volumetric expansion of a liquid whose density depends on
// pressure, by differences: water to about 0.1 %. Nothing for a liquid that knows no dependence on pressure.
struct Elasticity {
  std::optional<Pressure> bulk_modulus;
  double expansion_per_k = 0;
};
Elasticity elasticity_of(const fluid::Liquid& liquid, Temperature t, AbsolutePressure p);

}  // namespace pumpwright::hydraulics

#include "engine/hydraulics/pressure_decay.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/assembly/input_check.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

// What enters, as numbers, so that every one can be moved by its uncertainty.
enum Input : std::size_t { p1, p2, scale, t1, t2, volume, modulus, expansion, air, inputs };
using Values = std::array<double, inputs>;

struct Outputs {
  double drop = 0, by_heat = 0, by_leak = 0, leak = 0;
};

Values values_of(const HoldTest& t) {
  Values v{};
  v[p1] = t.start.pressure.value.value();
  v[p2] = t.end.pressure.value.value();
  v[scale] = 1;
  v[t1] = kelvin_of(t.start.temperature);
  v[t2] = kelvin_of(t.end.temperature);
  v[volume] = t.volume.value();
  return v;
}

Values doubts_of(const HoldTest& t) {
  Values u{};
  u[p1] = u[p2] = t.pressure_u.value();
  u[scale] = t.pressure_scale_u;
  u[t1] = u[t2] = t.temperature_u.value();
  u[volume] = t.volume_u * t.volume.value();
  return u;
}

void require_valid(const HoldTest& t) {
  require_between(t.held.value(), 1, 30 * 86400.0, "held", "a time from 1 s to 30 days");
  require_between(t.volume.value(), 1e-6, 1000, "volume", "a volume from 1 mL to 1000 m³");
  require_between(t.atmosphere.value.value(), 20e3, 120e3, "atmosphere",
                  "an air pressure from 20 to 120 kPa");
  for (const HoldReading& r : {t.start, t.end}) {
    require_between(r.pressure.value.value(), -0.99 * t.atmosphere.value.value(), 1e8, "pressure",
                    "a gauge pressure over vacuum, at most 100 MPa");
    require_between(kelvin_of(r.temperature), 200, 700, "temperature", "a temperature from 200 K to 700 K");
  }
  require_between(t.pressure_u.value(), 0, 1e7, "pressure_u", "not below 0");
  require_between(t.pressure_scale_u, 0, 0.5, "pressure_scale_u", "0 to 50 %");
  require_between(t.temperature_u.value(), 0, 50, "temperature_u", "0 to 50 K");
  require_between(t.volume_u, 0, 1, "volume_u", "0 to 100 %");
}

void require_valid(const LiquidMedium& m, const HoldTest& t) {
  require_between(m.bulk_modulus.value(), 1e8, 1e10, "bulk_modulus", "a bulk modulus from 0.1 to 10 GPa");
  require_between(m.expansion_per_k, -1e-3, 3e-3, "expansion",
                  "a volumetric expansion from -0.001 to 0.003 per K");
  require_between(m.vessel_expansion_per_k, 0, 2e-4, "vessel_expansion", "0 to 0.0002 per K");
  require_between(m.vessel_give_m3_pa, 0, 1e-6, "vessel_give", "0 to 1e-6 m³/Pa");
  require_between(m.trapped_air.value(), 0, t.volume.value(), "trapped_air", "0 to the whole volume");
  require_between(m.bulk_modulus_u, 0, 1, "bulk_modulus_u", "0 to 100 %");
  require_between(m.expansion_u, 0, 1, "expansion_u", "0 to 100 %");
  require_between(m.trapped_air_u.value(), 0, t.volume.value(), "trapped_air_u", "0 to the whole volume");
}

template <class Model>
LeakFinding propagate(const Values& v, const Values& u, Model model) {
  const Outputs middle = model(v);
  LeakFinding f{{middle.drop}, {middle.by_heat}, {middle.by_leak}, {middle.leak}, 0};
  for (std::size_t i = 0; i < inputs; ++i) {
    if (!(u[i] > 0)) continue;
    Values moved = v;
    moved[i] = v[i] + u[i];
    const Outputs up = model(moved);
    moved[i] = v[i] - u[i];
    const Outputs down = model(moved);
    f.drop_pa.u = std::hypot(f.drop_pa.u, (up.drop - down.drop) / 2);
    f.drop_by_heat_pa.u = std::hypot(f.drop_by_heat_pa.u, (up.by_heat - down.by_heat) / 2);
    f.drop_by_leak_pa.u = std::hypot(f.drop_by_leak_pa.u, (up.by_leak - down.by_leak) / 2);
    f.leak_m3_s.u = std::hypot(f.leak_m3_s.u, (up.leak - down.leak) / 2);
  }
  return f;
}

}  // namespace

LeakFinding liquid_leak(const HoldTest& t, const LiquidMedium& m) {
  require_valid(t);
  require_valid(m, t);
  Values v = values_of(t), u = doubts_of(t);
  v[modulus] = m.bulk_modulus.value();
  v[expansion] = m.expansion_per_k;
  v[air] = m.trapped_air.value();
  u[modulus] = m.bulk_modulus_u * v[modulus];
  u[expansion] = m.expansion_u * std::abs(v[expansion]);
  // Air can not be less than none.
  u[air] = std::min(m.trapped_air_u.value(), v[air] > 0 ? v[air] : m.trapped_air_u.value());
  const double atmosphere_pa = t.atmosphere.value.value();
  const auto compliance = [&](const Values& x) {
    const double mean_pa = x[scale] * (x[p1] + x[p2]) / 2 + atmosphere_pa;
    return x[volume] / x[modulus] + m.vessel_give_m3_pa + x[air] * atmosphere_pa / (mean_pa * mean_pa);
  };
  LeakFinding f = propagate(v, u, [&](const Values& x) {
    const double heat_m3 = x[volume] * (x[expansion] - m.vessel_expansion_per_k) * (x[t2] - x[t1]);
    const double a1 = x[scale] * x[p1] + atmosphere_pa, a2 = x[scale] * x[p2] + atmosphere_pa;
    const double stiff = x[volume] / x[modulus] + m.vessel_give_m3_pa;
    const double leaked_m3 = stiff * (a1 - a2) + x[air] * atmosphere_pa * (1 / a2 - 1 / a1) + heat_m3;
    Outputs o;
    o.drop = a1 - a2;
    o.by_heat = -heat_m3 / compliance(x);
    o.by_leak = o.drop - o.by_heat;
    o.leak = leaked_m3 / t.held.value();
    return o;
  });
  f.compliance_m3_pa = compliance(v);
  return f;
}

LeakFinding gas_leak(const HoldTest& t) {
  require_valid(t);
  const double atmosphere_pa = t.atmosphere.value.value();
  LeakFinding f = propagate(values_of(t), doubts_of(t), [&](const Values& x) {
    const double a1 = x[scale] * x[p1] + atmosphere_pa, a2 = x[scale] * x[p2] + atmosphere_pa;
    Outputs o;
    o.drop = a1 - a2;
    o.by_leak = a1 - a2 * x[t1] / x[t2];
    o.by_heat = o.drop - o.by_leak;
    o.leak = x[volume] * o.by_leak / (t.held.value() * atmosphere_pa);
    return o;
  });
  f.compliance_m3_pa = t.volume.value() / atmosphere_pa;
  return f;
}

Elasticity elasticity_of(const fluid::Liquid& liquid, Temperature t, AbsolutePressure p) {
  constexpr double step_k = 0.5, step_pa = 5e5;
  const auto density = [&](Temperature at, AbsolutePressure under) {
    return liquid.density(at, under).value();
  };
  const double middle = density(t, p);
  const auto moved = [&](double by_k) {
    const double at_k = std::clamp(kelvin_of(t) + by_k, kelvin_of(liquid.lowest_temperature()),
                                   kelvin_of(liquid.highest_temperature()));
    return kelvin(at_k);
  };
  const Temperature warmer = moved(step_k), colder = moved(-step_k);
  Elasticity e;
  e.expansion_per_k =
      (density(colder, p) - density(warmer, p)) / (middle * (kelvin_of(warmer) - kelvin_of(colder)));
  const double rise = density(t, {p.value + pascals(step_pa)}) - middle;
  if (rise > 1e-9 * middle) e.bulk_modulus = pascals(middle * step_pa / rise);
  return e;
}

}  // namespace pumpwright::hydraulics

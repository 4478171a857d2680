#include "engine/seal/chamber_pressure.h"

#include "engine/assembly/input_check.h"

namespace pumpwright::seal {
namespace {

constexpr double standard_gravity_m_s2 = 9.80665;

}  // namespace

ChamberShare chamber_share(ImpellerBack back, double trim) {
  require_between(trim, 0, 1, "trim", "0 for the largest impeller diameter to 1 for the smallest");
  switch (back) {
    case ImpellerBack::plain:
      return {0.5, 0.75, 1, HowKnown::remembered,
              "own derivation: liquid behind the impeller turning at half its speed; no published rule read"};
    case ImpellerBack::balance_holes:
      return {
          0, 0.10, 0.15, HowKnown::read,
          "two training papers on seal chamber pressure, which say 0.10 (0 to 0.10 in practice) and 0.15"};
    case ImpellerBack::back_vanes:
      return {0.1, 0.1 + 0.2 * trim, 0.3, HowKnown::read,
              "training paper on seal chamber pressure: 0.1 at the largest, 0.3 at the smallest impeller"};
    case ImpellerBack::wear_ring_removed:
      return {0.8, 1, 1, HowKnown::read,
              "Rules of Thumb for Mechanical Engineers, seal chamber pressure: about discharge pressure"};
    case ImpellerBack::double_suction:
      return {0, 0, 0.05, HowKnown::read,
              "Rules of Thumb for Mechanical Engineers, seal chamber pressure: about suction pressure"};
  }
  return {};
}

ChamberPressure chamber_pressure(GaugePressure suction, Pressure rise, const ChamberShare& share) {
  require_between(rise.value(), 0, 50e6, "pressure rise", "discharge less suction pressure, 0 to 50 MPa");
  require_between(suction.value.value(), -101325, 50e6, "suction pressure",
                  "a gauge pressure from vacuum to 50 MPa");
  const auto at = [&](double part) { return GaugePressure{suction.value + part * rise}; };
  return {at(share.low), at(share.expected), at(share.high), share};
}

Pressure pressure_of_head(Length head, Density density) {
  require_between(head.value(), 0, 5000, "head", "a head from 0 to 5000 m");
  require_that(density.value() > 0 && density.value() < 25'000, density.value(), "density",
               "a density over 0 and below 25 000 kg/m³");
  return pascals(density.value() * standard_gravity_m_s2 * head.value());
}

}  // namespace pumpwright::seal

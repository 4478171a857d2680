// Pressure in the seal chamber, which nobody reads: estimated from the pump's suction and head by what the
// back of the impeller does, always as a range, since the true figure depends on clearances.
#pragma once

#include <string>

#include "engine/assembly/how_known.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::seal {

// What stands between the discharge and the chamber of a single-stage pump.
enum class ImpellerBack {
  plain,              // closed back, no ring, no holes, no vanes
  balance_holes,      // back wear ring and holes through the hub
  back_vanes,         // vanes that pump the liquid out from behind the impeller
  wear_ring_removed,  // back ring worn away or left out and no holes
  double_suction,     // the chambers stand on the suction side
};

// Share of the pump's pressure rise that stands in the chamber above suction: 0 to 1, low <= expected <=
// high.
struct ChamberShare {
  double low = 0;
  double expected = 0;
  double high = 0;
  HowKnown how = HowKnown::read;
  std::string source;
};

// balance_holes: low 0, expected 0.10, high 0.15 (two guides disagree, both read);
// back_vanes: 0.1 at the largest impeller diameter, 0.3 at the smallest (one pump maker's advice, read):
//   expected 0.1 + 0.2 trim, range 0.1 to 0.3. `trim` 0 (largest) to 1 (smallest diameter the casing takes),
//   else BadInput "trim"; it matters for back_vanes only;
// wear_ring_removed: expected and high 1, low 0.8; double_suction: 0, high 0.05 (centres read, widths own);
// plain: expected 0.75, range 0.5 to 1: what is left after the liquid behind the impeller turns at half
// speed,
//   p2 - rho u2²/8 against a head near u2²/2g (own derivation, no source: how = remembered).
ChamberShare chamber_share(ImpellerBack back, double trim = 0);

struct ChamberPressure {
  GaugePressure low;  // the end to judge boiling by
  GaugePressure expected;
  GaugePressure high;  // the end to judge load and PV by
  ChamberShare share;
};

// suction + share (discharge - suction). An estimate: measure at the chamber where there is a tapping.
// `rise` = discharge - suction, 0 to 50 MPa, else BadInput "pressure rise".
ChamberPressure chamber_pressure(GaugePressure suction, Pressure rise, const ChamberShare& share);

// rho g H of a head: 0 to 5000 m, density over 0; BadInput "head", "density".
Pressure pressure_of_head(Length head, Density density);

}  // namespace pumpwright::seal

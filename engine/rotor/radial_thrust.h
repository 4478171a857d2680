// The force across the shaft that the liquid in the volute puts on the impeller away from best efficiency.
//
// F = K rho g H D2 b2 (Stepanoff's form; H in metres, b2 the width at the outlet with both shrouds), read in
// two trade journals' articles in its customary units, K H s D2 b2 / 2.31. K is not known well: it depends on
// the pump, and the published figures differ by more than a factor of two. So it is a range, and what it
// straddles is not decided.
#pragma once

#include <string>

#include "engine/quantity/quantity.h"

namespace pumpwright::rotor {

// K with how far it may be off: 0 <= least <= expected <= most <= 2.
struct RadialFactor {
  double least = 0;
  double expected = 0;
  double most = 0;
  std::string source;
};

// Single volute at `flow_ratio` = flow / flow at best efficiency. With q the ratio:
//   least     0.15 |1 - q^0.7|
//   expected  0.36 |1 - q²|, but not below 0.03
//   most      0.38 |1 - q^3.3|, but not below 0.06
// K at no flow 0.15 to 0.38 and the form 1 - q^x: a pump handbook, read. 0.36 and x = 2: Stepanoff,
// remembered. x from 0.7 to 3.3 by specific speed: Hydraulic Institute, remembered. What is left at best
// efficiency: 0.03 follows from a published worked example (59 lbf), twice that as the most is this project's
// own. Beyond 1.2 no published curve was found. Throws BadInput "operating_point/flow_ratio" outside 0
// to 1.2.
//
// Double volutes and concentric casings: their factors were found as pictures only, in part. Give your own.
RadialFactor single_volute_factor(double flow_ratio);

struct ThrustCase {
  RadialFactor factor;
  Length head;             // of the pump at that flow, 0 to 3000 m of its liquid
  Density density;         // 200 to 3000 kg/m³
  Length outlet_diameter;  // of the impeller, 10 mm to 3 m
  Length outlet_width;     // with both shrouds, 1 mm to 1 m
};

struct RadialThrust {
  Force least, expected, most;
};

// Throws BadInput "operating_point/..." or "impeller/...".
RadialThrust radial_thrust(const ThrustCase& pump);

}  // namespace pumpwright::rotor

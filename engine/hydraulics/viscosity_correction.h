// What a thick liquid does to a pump's water curve: ANSI/HI 9.6.7, ISO/TR 17766.
//
// B = 16.5 √ν H^0.0625 / (Q^0.375 N^0.25) with cSt, m, m³/h, r/min of the best efficiency point on water,
// head of one stage (read in two restatements). B <= 1: no correction. 1 < B < 40:
//   C_Q = 2.71^(-0.165 (log10 B)^3.15), C_H = 1 - (1 - C_Q)(Q/Q_bep)^0.75, C_η = B^(-0.0547 B^0.69).
// The US form has its own rounded constant, 26.6: it gives a B 0.4 % smaller; only the metric one is used.
// When only the thick duty is known: B = 2.80 √ν / (Q^0.25 H^0.125) (remembered), C_H = C_Q.
// Data behind it: 1 to 3000 cSt, 3 to 260 m³/h, 6 to 130 m a stage, B < 40; held good to 4000 cSt and US
// specific speeds under 3000. A generalised estimate: the pump on hand may well differ by several per cent.
#pragma once

#include <string>
#include <vector>

#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

struct WaterBest {
  VolumeFlow flow;  // at the best efficiency point on water
  Length head;      // of one stage
  Speed speed;
};

struct ViscosityFactors {
  double b = 0, flow = 1, efficiency = 1;
  std::vector<std::string>
      outside;  // which of the data's ranges are left: "flow", "head", "viscosity", "specific speed"
  // C_H at a part of the best flow.
  double head_at(double part_of_best_flow) const;
};

// BadInput "viscosity" outside 0.1 to 4000 cSt, "viscosity" too when B is 40 or more, "flow", "head", "speed"
// unless over 0.
ViscosityFactors viscosity_factors(const WaterBest& best, KinematicViscosity viscosity);

// From a duty on the thick liquid to the water duty to select a pump by.
struct WaterDuty {
  ViscosityFactors factors;
  VolumeFlow flow;
  Length head;
};
WaterDuty water_duty(VolumeFlow flow, Length head, KinematicViscosity viscosity);

}  // namespace pumpwright::hydraulics

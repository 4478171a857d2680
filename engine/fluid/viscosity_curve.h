// How thick a liquid is between two temperatures it was measured at: the straight line of ASTM D341.
//
// Source: ASTM D341, Standard Practice for Viscosity-Temperature Charts for Liquid Petroleum Products: with
// Z = ν + 0.7 + exp(-1.47 - 1.84 ν - 0.51 ν²) and ν in mm²/s, log log Z falls in a straight line with log T.
// Read in public restatements. The way back from Z to ν is solved for, so that the line goes through its
// points exactly; the standard prints an approximation for it.
#pragma once

#include <array>

#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

struct ViscosityPoint {
  Temperature t;
  KinematicViscosity viscosity;
};

class ViscosityCurve {
 public:
  // Two points, the warmer one thinner; 0.21 mm²/s to 2e7 mm²/s, 150 K to 1000 K. BadInput otherwise.
  explicit ViscosityCurve(const std::array<ViscosityPoint, 2>& points);

  // Between the two points; BadInput outside.
  KinematicViscosity at(Temperature t) const;
  Temperature lowest() const { return lowest_; }
  Temperature highest() const { return highest_; }

 private:
  Temperature lowest_;
  Temperature highest_;
  double height_;  // A in log10 log10 Z = A - B log10 T
  double fall_;    // B
};

}  // namespace pumpwright::fluid

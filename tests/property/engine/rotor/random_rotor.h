// Any rotor within the ranges of real pumps, for the properties.
#pragma once

#include <algorithm>

#include <rapidcheck.h>

#include "tests/support/given_rotor.h"

namespace pumpwright::testing {

inline double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

// Two to five steps; bearings at 30 to 50 % and 70 to 100 % of the shaft, held rigidly or by springs; the
// impeller near the end, anything else in the middle.
inline rotor::Rotor any_rotor() {
  rotor::Rotor r;
  r.material = given_steel();
  const int steps = *rc::gen::inRange(2, 6);
  for (int i = 0; i < steps; ++i) {
    const double diameter_m = between(0.015, 0.08);
    r.steps.push_back({metres(between(0.02, 0.2)), metres(diameter_m),
                       metres(*rc::gen::arbitrary<bool>() ? 0 : between(0.1, 0.6) * diameter_m)});
  }
  const Length length = rotor::length_of(r.steps);
  r.supports = {rotor::Support{between(0.3, 0.5) * length, std::nullopt},
                rotor::Support{between(0.7, 1) * length, std::nullopt}};
  for (rotor::Support& support : r.supports)
    if (*rc::gen::arbitrary<bool>()) support.stiffness = newtons_per_metre(between(1e7, 5e8));
  r.impeller = rotor::solid_disk(between(0, 0.2) * length, kilograms(between(0.5, 20)),
                                 metres(between(0.1, 0.3)), metres(between(0.01, 0.05)));
  if (*rc::gen::arbitrary<bool>())
    r.others = {
        rotor::solid_disk(between(0.5, 0.7) * length, kilograms(between(0.5, 20)), metres(0.1), metres(0.1))};
  return r;
}

}  // namespace pumpwright::testing

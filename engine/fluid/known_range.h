// Refuses what lies outside the range a correlation was made for, always in the same words: the range itself.
#pragma once

#include <string_view>

#include "engine/fluid/liquid.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::fluid {

constexpr double celsius_zero_k = 273.15;

inline double celsius_of(Temperature t) {
  return kelvin_of(t) - celsius_zero_k;
}

// A pressure this much below saturation still counts as saturated, so that a pressure and the temperature
// that was found for it can be handed on together.
constexpr double saturated_within = 1e-9;

// Throws BadInput for "temperature" unless lowest <= t <= highest; `what` completes "the range of ...".
void require_temperature(Temperature t, Temperature lowest, Temperature highest, std::string_view what);

// The same for "pressure".
void require_pressure(AbsolutePressure p, AbsolutePressure lowest, AbsolutePressure highest,
                      std::string_view what);

// Throws BadInput unless `liquid` is known at `t` and is a liquid at `p`: not below saturation, not above
// `highest`.
void require_liquid(const Liquid& liquid, Temperature t, AbsolutePressure p, AbsolutePressure highest);

}  // namespace pumpwright::fluid

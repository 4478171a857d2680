// A size as it would be at the reference temperature, from a size read on a part that is warmer or colder.
//
// Source: ISO 1 (reference temperature 20 °C, remembered); linear expansion ΔL = α L ΔT; propagation by
// GUM 5.1.
#pragma once

#include <optional>

#include "engine/quantity/quantity.h"

namespace pumpwright {

// A body at a temperature, and how it grows.
struct Warmth {
  Temperature at;
  TemperatureDifference u_at;  // standard uncertainty, >= 0
  Expansion alpha;             // [1/K] mean coefficient between 20 °C and `at`
  Expansion u_alpha;           // standard uncertainty, >= 0; published values differ by about 5 %
};

struct ReadSize {
  Length value;
  Length u;  // standard uncertainty, >= 0
};

struct SizeAtReference {
  Length value;       // [m] at 20 °C
  Length u;           // [m] combined standard uncertainty
  Length correction;  // [m] value - read size
};

// L₂₀ = L (1 + α_s (t_s - 20 °C)) / (1 + α (t - 20 °C)): `part` is the thing measured, `scale` the instrument
// when it is not at 20 °C either (a steel micrometer as warm as the shaft reads a steel shaft nearly right).
// First-order propagation of all uncertainties, taken as uncorrelated. Throws BadInput when a number is not
// finite, a temperature lies outside -100 … 500 °C, a coefficient outside 0 … 1e-3 1/K, or an uncertainty is
// negative.
SizeAtReference at_reference_temperature(const ReadSize& read, const Warmth& part,
                                         const std::optional<Warmth>& scale = std::nullopt);

}  // namespace pumpwright

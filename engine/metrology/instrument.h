// What a measuring instrument adds to the doubt about a reading.
//
// An instrument is described by what its certificate and its dial say; from that come the standard
// uncertainty of one reading and of a difference of two readings (GUM type B). No table of permissible errors
// by graduation is built in: the shop enters what its own certificate states.
#pragma once

#include <optional>
#include <string>

#include "engine/metrology/uncertainty_budget.h"
#include "engine/quantity/quantity.h"

namespace pumpwright {

struct Instrument {
  std::string id{};
  Length graduation{};  // [m] one division of the dial or one step of the display, > 0

  // Half-width within which a reading is taken to lie [m]; half a graduation when not stated. A hand that
  // estimates to a fifth of a division states a tenth of the graduation.
  std::optional<Length> reading_half_width{};

  std::optional<Length> mpe{};  // [m] largest permissible error, ± this, >= 0
  std::optional<Length>
      repeatability{};  // [m] standard deviation of repeated readings of the same place, >= 0
  std::optional<double> repeatability_dof{};  // degrees of freedom behind it; exactly known when not stated

  // Whether the instrument was in date at the reading's time. The figures above are used either way; a
  // judgement (decision.h) that rests on an instrument out of date proves nothing.
  bool in_date = true;
};

// Standard uncertainty of one reading against the true value. Contributions, each when stated:
//   reading        rectangular, ± reading_half_width:   a/√3 (graduation/√12 by default)
//   permissible    rectangular, ± mpe:                  mpe/√3
//   repeatability  normal, with its degrees of freedom
// Throws BadInput when a figure is not finite, negative, or the graduation is not positive.
UncertaintyBudget reading_budget(const Instrument& instrument);

// Standard uncertainty of the difference of two readings by the same instrument, as in a TIR (largest minus
// smallest). Model: y = (x₂ + δ₂) - (x₁ + δ₁) with independent δ of the same budget, so every variance
// doubles. A zero error common to both readings would cancel and an error proportional to the travel would
// not; taking them as independent within ± mpe lies on the safe side of the first and covers the second.
UncertaintyBudget difference_budget(const Instrument& instrument);

// The part of a reading's uncertainty that differs from one reading to the next: reading and repeatability,
// without the permissible error [m].
Length reading_scatter(const Instrument& instrument);

}  // namespace pumpwright

// Between the places that were read: extremes of the fitted curve, and what a set of places can miss at
// worst. Internal to the evaluation of a sweep.
#pragma once

#include <span>

#include "engine/metrology/sweep_places.h"

namespace pumpwright::sweep_detail {

// Largest less smallest value of β₀ + Σ β_{2k-1} cos kθ + β_{2k} sin kθ over the turn, gaps left out [as β].
double curve_range(std::span<const double> beta, std::span<const GapSpan> gaps);

// f of MissedTir::worst_phase: min over φ of ½[max cos(θᵢ-φ) - min cos(θᵢ-φ)] for the places θᵢ (rising, 0 …
// 2π, at least 2); 0 … 1. The function is made of concave pieces that meet where φ or φ + 180° is halfway
// between two neighbouring places, so its least value is at one of those; both kinds give the same values.
double worst_phase_factor(std::span<const double> places_rad);

}  // namespace pumpwright::sweep_detail

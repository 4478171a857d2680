// From what the sheet says to surface deviation against place: signs, stylus angle, sag, gaps, turns.
// Internal to the evaluation of a sweep.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "engine/metrology/sweep.h"

namespace pumpwright::sweep_detail {

// One reading, as the surface it stands for.
struct SurfacePoint {
  double cos_1, sin_1;  // of its place
  double deviation_m;   // away from the axis, or out of the face
  std::size_t index;    // into the readings as given
  std::size_t place;    // into PlacedSweep::places_rad
  std::size_t turn;     // 0 for the first
};

struct PlacedSweep {
  std::vector<SurfacePoint> points;  // in the order given
  std::vector<double> places_rad;    // the different places, rising, 0 … 2π
  std::size_t left_out = 0;
  double lever_factor = 1;          // surface movement per needle movement, without sign
  double largest_m = 0;             // largest |deviation|
  std::optional<double> closure_m;  // as the needle showed it
};

// A gap in SI: from `from_rad` (0 … 2π) over `width_rad` (0 … 2π).
struct GapSpan {
  double from_rad, width_rad;
  // Strictly inside.
  bool contains(double place_rad) const;
};

// Checks readings and set-up; throws BadInput as evaluate_sweep says.
PlacedSweep place_readings(std::span<const SweepReading> readings, const SweepSetup& setup);
std::vector<GapSpan> gap_spans(const SweepSetup& setup);

// 0 <= result < 2π.
double wrapped_rad(double angle_rad);

}  // namespace pumpwright::sweep_detail

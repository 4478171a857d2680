// The readings of a sweep as what they mean: how far the surface stands out at which place.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/metrology/sweep_setup.h"
#include "job/check.h"
#include "job/reading.h"

namespace pumpwright::report {

struct SurfaceReading {
  double place_deg = 0;    // 0 … 360; from the keyway or the top, as the check's place turns or stands
  double deviation_m = 0;  // away from the axis, or out of the face; sign, lever and sag corrected
  std::size_t index = 0;   // into the sweep's points as written
};

SweepSetup sweep_setup_of(const job::Check& check, const job::SweepReading& written);

// In the order written; readings inside a declared gap are left out. With two indicators: half differences.
// Empty when there are no readings, or when they are not such as a sweep may have.
std::vector<SurfaceReading> surface_readings(const job::Check& check, const job::SweepReading& written);

}  // namespace pumpwright::report

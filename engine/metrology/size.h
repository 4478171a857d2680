// Repeated diameters of one cylindrical surface (shaft, sleeve, bore, ring): mean, taper, out-of-round.
//
// Readings are taken at sections along the axis and at clock positions round each section. Two-point
// diameters do not see odd lobing (a three-lobed bore can measure equal all round); a sweep does.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "engine/metrology/instrument.h"
#include "engine/metrology/measured.h"
#include "engine/quantity/quantity.h"

namespace pumpwright {

struct DiameterReading {
  Length section;   // [m] where along the axis; readings within 1 µm of each other belong to one section
  Angle clock;      // [rad] direction of the diameter; opposite directions are the same diameter
  Length diameter;  // [m] > 0
};

struct SectionSize {
  Length section;
  std::size_t count = 0;
  Length mean, smallest, largest;
  Length ovality;  // [m] largest - smallest of this section
};

struct SizeResult {
  std::size_t count = 0;
  Length mean;  // [m] of the sections' means, so that a section read more often does not weigh more
  Length smallest, largest;  // [m] of all readings
  Length ovality;            // [m] the largest of the sections'
  Length taper;           // [m] mean at the last section - mean at the first, in rising `section`; 0 for one
  Length section_spread;  // [m] largest - smallest section mean (a barrel has this without taper)
  std::vector<SectionSize> sections;  // in rising `section`
  Length u;       // [m] standard uncertainty of one diameter by the instrument; 0 when none was stated
  Length u_mean;  // [m] of the mean: the instrument's reading and repeatability over √n, its permissible
                  // error whole
};

// Throws BadInput for no readings, more than 100000, a value that is not finite or a diameter that is not
// positive.
SizeResult summarize_size(std::span<const DiameterReading> readings, const Instrument* instrument = nullptr);

// For judging a size limit: every diameter must keep to it, so the smallest or the largest is what is judged.
Measured<Length> smallest_measured(const SizeResult& size, const Instrument& instrument);
Measured<Length> largest_measured(const SizeResult& size, const Instrument& instrument);

}  // namespace pumpwright

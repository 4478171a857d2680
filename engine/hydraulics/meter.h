// What the instruments of a performance test may be wrong by: the part that stays the same through the whole
// test, and the part that differs from one reading to the next.
//
// The permissible error of an instrument is taken as one unknown error of that instrument: every reading of
// it carries the same share of its limit, so that the errors of all readings of one gauge, suction and
// discharge alike when one gauge serves both, are fully correlated (JCGM 100:2008, 5.2 and F.1.2.3). Reading
// it off is independent from one reading to the next. Both are rectangular (4.3.7).
#pragma once

#include <string>

namespace pumpwright::hydraulics {

// Limits in the SI unit of what the instrument reads; gauge pressure for a gauge.
struct Meter {
  std::string id;
  double error_of_reading = 0;  // ± this part of the reading, 0 to 0.5
  double error = 0;             // ± this, >= 0: a certificate's figure or a class times the range
  double reads_to = 0;          // half-width of reading it off, and of the needle's dance, >= 0
};

// Largest permissible error at a reading [SI].
inline double error_limit(const Meter& meter, double reading) {
  const double size = reading < 0 ? -reading : reading;
  return meter.error + meter.error_of_reading * size;
}

}  // namespace pumpwright::hydraulics

// How an alignment's lengths and slopes are shown: in the units the tolerance is written in, lengths with one
// digit more than the indicator shows.
#pragma once

#include <string>

#include "engine/quantity/format.h"
#include "job/sheets/alignment_sheet.h"

namespace pumpwright::job {

class AlignmentUnits {
 public:
  explicit AlignmentUnits(const AlignmentSheet& sheet)
      : length_(*sheet.offset_tolerance.unit),
        slope_(*sheet.angularity_tolerance.unit),
        decimals_(decimals_for_graduation(sheet.instrument.graduation.value() / 10, length_)) {}

  std::string length(Length l, Sign sign = Sign::when_negative) const {
    return format_decimals(l, length_, decimals_, sign);
  }
  std::string slope(Angle a) const { return format_decimals(a, slope_, 3); }

 private:
  const Unit& length_;
  const Unit& slope_;
  int decimals_;
};

}  // namespace pumpwright::job

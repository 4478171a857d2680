// The size of a shaft or a bore as a command line writes it: by ISO class, by limits, or as measured.
#pragma once

#include <optional>
#include <string>

#include "engine/assembly/fit.h"
#include "engine/assembly/how_known.h"
#include "engine/quantity/unit.h"

namespace pumpwright {

enum class FitSide { shaft, bore };

struct FitSize {
  std::string text;   // as written
  SizeLimits limits;  // of a measured size: the size itself, twice
  Length nominal;     // basic size; of a measured size the size itself
  std::optional<MeasuredDiameter> measured;
  const Unit* unit = nullptr;           // to answer in
  std::optional<HowKnown> class_known;  // for a class: how its limits are known …
  std::string class_source;             // … and from which document
};

// Forms:
//   "50 g6", "50g6"                 basic size in mm and class; capital letters are bores
//   "1.2495 in +0/-0.0005 in"       size, upper and lower deviation; one written unit serves all three
//   "50 ±0.01 mm"                   size and equal deviations
//   "49.975..49.991 mm"             smallest and largest size
//   "1.2493 in"                     a measured size; `uncertainty` (standard, may be empty) belongs to it
// Throws BadInput naming `flag`.
FitSize parse_fit_size(const std::string& text, const std::string& uncertainty, FitSide side,
                       const std::string& flag);

}  // namespace pumpwright

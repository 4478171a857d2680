// What a bore and a shaft do to each other: clearance or interference, from limits of size or from measured
// sizes.
#pragma once

#include "engine/quantity/quantity.h"

namespace pumpwright {

// Limits of size. 0 < smallest <= largest.
struct SizeLimits {
  Length smallest;
  Length largest;
};

// A size as measured: value > 0 with its standard uncertainty >= 0.
struct MeasuredDiameter {
  Length value;
  Length standard_uncertainty;
};

enum class FitKind {
  clearance,     // smallest clearance >= 0
  transition,    // may be either
  interference,  // largest clearance <= 0, and the smallest below 0
};
const char* word_for(FitKind kind);

// Diametral; negative is interference.
struct FitRange {
  Length smallest_clearance;  // smallest bore with largest shaft
  Length largest_clearance;   // largest bore with smallest shaft
  FitKind kind = FitKind::clearance;
};

// Kinds of fit: ISO 286-1:2010, 3.3.2 to 3.3.5. Throws BadInput naming "bore" or "shaft" for limits that are
// not finite, not positive or in the wrong order.
FitRange fit_between(const SizeLimits& bore, const SizeLimits& shaft);

struct MeasuredFit {
  Length clearance;             // bore - shaft; negative is interference
  Length standard_uncertainty;  // of the clearance; the two sizes taken as independent
  FitRange range;               // clearance +- coverage * u, and the kind it allows
  double probability_of_clearance =
      0;  // that bore > shaft, normal theory; 0.5 when both are equal and certain
};

// `coverage` is k of the stated interval, 0 to 10. Throws BadInput as above.
MeasuredFit fit_between(const MeasuredDiameter& bore, const MeasuredDiameter& shaft, double coverage = 2);

}  // namespace pumpwright

// ISO limits and fits: what "50 H7/g6" means in millimetres.
//
// Standard tolerance grades IT5 to IT11 and the fundamental deviations of the usual pump-shop letters, for
// sizes up to 250 mm, from the tables of ISO 286-1:2010 and ISO 286-2:2010 as restated in public texts. The
// tables are the law; the formulas behind them differ by rounding and serve the tests. Every answer says how
// its numbers are known. Shafts: f g h j js k m n p s. Holes: F G H J JS K M N P. A combination that is not
// held is refused, never guessed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/assembly/fit.h"
#include "engine/assembly/how_known.h"
#include "engine/quantity/quantity.h"

namespace pumpwright {

// "H7" is a hole class, "g6" a shaft class: capitals are holes.
struct ToleranceClass {
  std::string letters;
  int grade = 0;
  bool is_hole() const { return !letters.empty() && letters.front() >= 'A' && letters.front() <= 'Z'; }
};

// Signed distances from the basic size.
struct LimitDeviations {
  Length lower;
  Length upper;
  HowKnown how = HowKnown::read;
  std::string source;  // outside document and table
};

struct StandardTolerance {
  Length width;
  HowKnown how = HowKnown::read;
  std::string source;
};

// Width of grade IT`grade` for `basic`; range steps are "over a up to and including b". 0 < basic <= 250 mm,
// grade 5 to 11; outside, BadInput "basic size" or "grade" states the range held.
StandardTolerance standard_tolerance(Length basic, int grade);

// Deviations of a class at a basic size. BadInput "tolerance class" for letters or a letter and grade not
// held, listing those that are. js and JS are +-IT/2 exactly, not rounded to whole micrometres. K, M, N up to
// IT8 and P up to IT7 use the correction Delta = IT(n) - IT(n-1) of ISO 286-1:2010, 4.3.2.5.
LimitDeviations limit_deviations(Length basic, const ToleranceClass& tolerance_class);

// basic + deviations.
SizeLimits limits_of(Length basic, const ToleranceClass& tolerance_class);

// A size with a class for the hole, the shaft or both.
struct FitDesignation {
  Length basic;
  std::optional<ToleranceClass> hole;
  std::optional<ToleranceClass> shaft;
};

// Reads "50 H7/g6", "50H7", "25 k6", "64 mm H8-f7", "20,5 h6" (decimal comma with one, two or more than three
// places). Sizes are millimetres. Throws BadInput naming `field`.
FitDesignation parse_fit(const std::string& text, const std::string& field);

// One row for a catalog page: a letter at one step of the size range.
struct Iso286Row {
  Length over;  // basic sizes over this ...
  Length to;    // ... up to and including this
  ToleranceClass tolerance_class;
  LimitDeviations deviations;
};

// Every class that is held, over all size steps, in order of letter, grade, size.
std::vector<Iso286Row> all_iso286_rows();

}  // namespace pumpwright

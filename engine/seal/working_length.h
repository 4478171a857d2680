// The length a seal is really given by the parts around it: whether it is the sheet's length, what the spring
// makes of it, which part is to blame when it is not, and what running does to it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/assembly/chain.h"
#include "engine/metrology/decision.h"
#include "engine/metrology/measured.h"
#include "engine/quantity/quantity.h"
#include "engine/seal/spring.h"

namespace pumpwright::seal {

// One part of the stack between the seat's face and what the head's spring leans on: seat depth, gasket,
// sleeve shoulder, hub, shaft step, shim.
struct LengthPart {
  Link drawing;  // coefficient +1 when more of it lengthens the seal's room, -1 when it shortens it; nominal
                 // and tolerance as on the drawing
  std::optional<Measured<Length>> measured;  // empty: the drawing is believed
  bool is_shim = false;                      // may be made thicker, thinner or left out to correct the length
};

// What running changes against the bench.
struct ServiceMotion {
  Length float_shortening;  // how far the shaft may still move so as to shorten the seal, 0 or more
  Length float_lengthening;
  Length growth_low;  // least and most change of the length by warmth, positive lengthens
  Length growth_high;
};

struct WorkingLengthCase {
  std::vector<LengthPart> parts;
  Length required;         // the sheet's working length (EN 12756 l1 or the maker's own figure), > 0
  Length lower_tolerance;  // signed, <= upper: installed >= required + lower_tolerance
  Length upper_tolerance;
  DecisionRule rule = Guarded{};
  Spring spring;
  Length rigid;  // part of the working length that is not spring: 0 or more, below the required length
  ServiceMotion service;
};

// Which part explains a wrong length, and how to put it right.
struct LengthCorrection {
  Length change;                    // to add to the length (negative: take away) to meet the sheet
  std::optional<std::string> part;  // whose deviation explains it: with that part at its drawing's size the
                                    // length would lie inside the tolerance, nearest of all to the sheet
  Length part_deviation;            // measured less nominal of that part
  bool part_missing = false;        // it measured nothing though the drawing has it
  Length left_over;                 // deviation of the length that would remain with that part as drawn
  std::vector<std::string> others;  // parts that would explain it too, in order of what would be left over
  std::optional<std::string> shim;  // the part of the stack that may be changed freely
  Length shim_change;               // by how much, positive thicker
};

// Which part explains that the length is off by `deviation`, which the tolerances do not allow, and what puts
// it right. For stacks without a spring at hand; working_length() says it for its own.
LengthCorrection length_correction(std::span<const LengthPart> parts, Length lower_tolerance,
                                   Length upper_tolerance, Length deviation);

struct ServiceLength {
  Measured<Length> shortest, longest;
  SpringForce at_shortest, at_longest;
};

struct WorkingLength {
  ChainAnalysis stack;
  Measured<Length> installed;
  Length deviation;                            // installed less required
  Verdict<Length> verdict;                     // of the installed length by the sheet's tolerance
  SpringForce spring;                          // at the installed length
  SpringForce as_required;                     // at the sheet's length
  std::optional<LengthCorrection> correction;  // when the verdict is not pass
  ServiceLength service;
};

// A measured part enters with its uncertainty, one that was not measured with its drawing's tolerance as
// `Link` says. A part is only blamed when its deviation from the drawing's middle is more than twice its
// uncertainty and outside the drawing's tolerance. When no single part explains the length, `part` is empty
// and only the change stands. Throws BadInput "links/..." (as require_valid of a Chain), "required",
// "tolerance", "rigid", "service/...", "spring/...", and what decide() says.
WorkingLength working_length(const WorkingLengthCase& seal);

// A part that warms between bench and service.
struct WarmingPart {
  double coefficient = 1;  // as in LengthPart
  Length length;
  Expansion expansion;
  TemperatureDifference warming_low, warming_high;  // low <= high
};

struct GrowthRange {
  Length low;
  Length high;
};

// Sum of c alpha L dT with each part at its own worst end. BadInput "warming/3/...".
GrowthRange growth_of(std::span<const WarmingPart> parts);

}  // namespace pumpwright::seal

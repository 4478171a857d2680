// At which pressure a pump is held, and for how long: the rule chosen, and never more than the weakest part.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/assembly/how_known.h"
#include "engine/quantity/quantity.h"

namespace pumpwright::hydraulics {

enum class HoldRule {
  rated_and_shutoff,  // the greater of 150 % of the pressure at the rated point and 125 % of that at shut-off
  mawp_150,           // 1.5 times the maximum allowable working pressure
  mawp_110_thermoset,  // 1.1 times, for thermoset polymer parts
  own,                 // the shop's or the contract's figure
};

// Pressures as a gauge reads them. Which are needed depends on the rule.
struct HoldBasis {
  std::optional<GaugePressure> rated, shutoff, mawp, own;
};

// What may not see more than its rating, standing still. The seal is one of them while it is fitted.
struct RatedPart {
  std::string name;
  GaugePressure rating;
};

struct TestPressure {
  GaugePressure by_rule, used;
  std::string limited_by;  // the part that keeps it below the rule's figure; empty when none does
  std::string source;
  HowKnown known = HowKnown::read;
};

// BadInput "rated", "shutoff", "mawp" or "own" when what the rule needs is missing or not over 0 to 100 MPa,
// "parts" when none is given, "rating" when one is not over 0.
TestPressure test_pressure(HoldRule rule, const HoldBasis& basis, const std::vector<RatedPart>& parts);

struct HoldTime {
  Time least;
  std::string source;
  HowKnown known = HowKnown::read;
};

// Of the rule; `power` of the pump for rated_and_shutoff (3 min up to 75 kW, 10 min above: remembered).
HoldTime hold_time(HoldRule rule, std::optional<Power> power);

// "rated-and-shutoff", "mawp-1.5", "mawp-1.1-thermoset", "own".
const char* word_for(HoldRule rule);

}  // namespace pumpwright::hydraulics

// What the evidence says of the causes, and what to look at next.
//
// A finding's weight for a cause is the tenth logarithm of the cause's odds with it over its odds without it
// (Good, Probability and the Weighing of Evidence (1950)), all other findings kept. What is worth looking at
// next is what is expected to tell most of the causes: the sum over causes of its mutual information with
// each, in bits, given what is known (Cover and Thomas, Elements of Information Theory, section 2.3).
//
// A cause is named when its probability is at least one half and no rival has more than half of it. A rival
// is a cause that the leading one would leave less likely than not; one that stays likely beside it belongs
// to it. Otherwise the evidence does not tell.
#pragma once

#include <optional>
#include <vector>

#include "engine/reliability/cause_network.h"

namespace pumpwright::reliability {

struct FindingWeight {
  std::size_t finding = 0;
  double weight = 0;  // over 0 for the cause, under 0 against it
};

struct RankedCause {
  std::size_t cause = 0;
  double probability = 0;
  std::vector<FindingWeight> evidence;  // what was looked at and has a weight, the heaviest first
};

struct NextFinding {
  std::size_t finding = 0;
  double chance = 0;  // that it will be there
  double bits = 0;    // expected to be learnt of the causes
};

struct CauseDiagnosis {
  std::vector<RankedCause> ranked;  // all causes, the likeliest first
  std::vector<std::size_t> named;   // the leading cause and those that go with it; empty: can not tell
  std::vector<std::size_t> rivals;  // causes of more than half its probability that it would rule out
  std::vector<NextFinding> next;    // not looked at yet, the most telling first
};

// A cause below it is not named.
constexpr double least_probability_named = 0.5;
// A weight under it is no evidence worth a word: odds change by less than a tenth.
constexpr double least_weight = 0.0414;

CauseDiagnosis diagnose(const CauseInference& inference, const Evidence& evidence);

}  // namespace pumpwright::reliability

// Did the change help? Pumps built before it beside pumps built after it.
//
// The figure is the ratio of the rates of return, after over before, from a proportional-hazards fit with
// that one difference; its interval is the likelihood one (profile_limit.h), which holds where one side has
// hardly any returns, and may be open there. The change is proven to help when the whole interval lies below
// one, to harm when above; else the data can not tell, and the number of further returns and pumps that would
// settle it is given (returns_to_settle.h). With fewer than five returns in all nothing is claimed: the
// interval leans on many returns (our own rule).
//
// What else changed with the change (season, customers, supplier) is compared along with it; no computation
// takes that apart.
#pragma once

#include <optional>

#include "engine/reliability/comparison.h"
#include "engine/reliability/returns_to_settle.h"

namespace pumpwright::reliability {

enum class Change { fewer_returns, more_returns, cannot_tell };

enum class ChangeReason {
  interval_below_one,   // fewer returns
  interval_above_one,   // more returns
  one_in_the_interval,  // can not tell
  too_few_returns,      // can not tell
};

struct Settling {
  double ratio = 0.5;            // the true ratio of rates that is to be proven
  double power = 0;              // chance that the returns seen so far would have proven it
  double returns_needed = 0;     // in all
  std::size_t returns_more = 0;  // beyond those seen
  std::optional<std::size_t>
      pumps_more{};  // at the share of pumps that came back so far; none without a return
};

struct BeforeAfter {
  LogRank log_rank;  // groups: before, after
  double ratio = 1;  // rate after over rate before; 0 or infinite when one side has no return
  double ratio_low = 0;
  double ratio_high = 0;  // may be infinite
  Change change = Change::cannot_tell;
  ChangeReason reason = ChangeReason::too_few_returns;
  Settling settling;
};

constexpr std::size_t returns_to_compare = 5;

// `ratio_to_prove`: the smallest change worth knowing of, above 0 and not 1. Throws BadInput for lives that
// are not valid ("groups/0/lives" is before) and for a plan out of range.
BeforeAfter before_after(const Lives& before, const Lives& after, double ratio_to_prove = 0.5,
                         const TestPlan& plan = {});

}  // namespace pumpwright::reliability

// Whether what is left of the unbalance keeps to what is permitted: pass, fail or unproven.
//
// The rule is the guarded one of engine/metrology/decision.h: the amount must lie inside the limit by the
// guard band of its own uncertainty. An amount without an uncertainty proves nothing.
#pragma once

#include <optional>
#include <string>

#include "engine/metrology/decision.h"
#include "engine/rotor/balance_solution.h"

namespace pumpwright::rotor {

struct BalanceVerdict {
  Outcome outcome = Outcome::unproven;
  // A code of decision.h, or "uncertainty-not-known", "planes-not-told-apart".
  std::string reason;
  Unbalance amount;
  Unbalance limit;
  std::optional<Unbalance> u;
  std::optional<Unbalance> guard;
  std::optional<double> conformance_probability;
};

// `limit` > 0. Throws BadInput as decide().
BalanceVerdict judge_unbalance(const UnbalanceEstimate& estimate, Unbalance limit, bool told_apart,
                               double probability = 0.95);

}  // namespace pumpwright::rotor

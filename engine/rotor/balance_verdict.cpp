#include "engine/rotor/balance_verdict.h"

namespace pumpwright::rotor {

BalanceVerdict judge_unbalance(const UnbalanceEstimate& estimate, Unbalance limit, bool told_apart,
                               double probability) {
  BalanceVerdict v;
  v.amount = kilogram_metres(std::abs(estimate.value));
  v.limit = limit;
  v.u = estimate.amount_u();
  if (!told_apart) {
    v.reason = "planes-not-told-apart";
    return v;
  }
  if (!v.u) {
    v.reason = "uncertainty-not-known";
    return v;
  }
  decision_si::Input in;
  in.upper = limit.value();
  in.value = v.amount.value();
  in.u = v.u->value();
  in.dof = estimate.dof;
  in.never_negative = true;
  const decision_si::Output out = decision_si::decide(in, Guarded{probability});
  v.outcome = out.outcome;
  v.reason = code(out.reason);
  v.guard = kilogram_metres(out.guard);
  v.conformance_probability = out.conformance_probability;
  return v;
}

}  // namespace pumpwright::rotor

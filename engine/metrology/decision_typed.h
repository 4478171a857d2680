// The typed side of decision.h: strips the units, decides in SI and puts the units back. Included by
// decision.h.
#pragma once

#include "engine/metrology/decision.h"

namespace pumpwright {

template <class Q>
Verdict<Q> decide(const Limit<Q>& limit, const Measured<Q>& measured, const DecisionRule& rule) {
  using M = Measurand<Q>;
  decision_si::Input in;
  if (limit.lower) in.lower = M::si(*limit.lower);
  if (limit.upper) in.upper = M::si(*limit.upper);
  in.value = M::si(measured.value);
  in.u = M::si_step(measured.u);
  in.dof = measured.dof;
  if (measured.graduation) in.graduation = M::si_step(*measured.graduation);
  in.u_graduation = M::si_step(measured.u_graduation);
  in.u_scatter = M::si_step(measured.u_scatter);
  in.in_date = measured.in_date;
  in.never_negative = M::never_negative;

  const decision_si::Output out = decision_si::decide(in, rule);
  Verdict<Q> verdict;
  verdict.outcome = out.outcome;
  verdict.reason = out.reason;
  verdict.nearest = out.nearest;
  verdict.margin = M::step(out.margin);
  verdict.guard = M::step(out.guard);
  verdict.conformance_probability = out.conformance_probability;
  if (out.settling.u) verdict.settling.u = M::step(*out.settling.u);
  if (out.settling.graduation) verdict.settling.graduation = M::step(*out.settling.graduation);
  verdict.settling.repeats = out.settling.repeats;
  return verdict;
}

}  // namespace pumpwright

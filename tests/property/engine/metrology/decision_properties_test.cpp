// Relations every decision keeps.
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/metrology/decision.h"
#include "tests/support/hold.h"

namespace pumpwright {
namespace {

using testing::hold;

double real_in(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}

struct Judged {
  Limit<Length> limit;
  Measured<Length> measured;
};

Judged anything() {
  Judged j;
  const int sides = *rc::gen::inRange(0, 3);
  const double low = real_in(-1, 1);
  if (sides != 0) j.limit.lower = metres(low);
  if (sides != 1) j.limit.upper = metres(low + real_in(0, 1));
  j.measured.value = metres(real_in(-2, 3));
  j.measured.u = metres(real_in(0, 0.5));
  if (*rc::gen::inRange(0, 2) == 1) j.measured.dof = real_in(1, 30);
  return j;
}

TEST(DecisionProperties, LessDoubtNeverUnprovesAndNeverTurnsAVerdictRound) {
  hold("less doubt", [] {
    Judged j = anything();
    const auto before = decide(j.limit, j.measured, Guarded{});
    j.measured.u *= real_in(0, 1);
    const auto after = decide(j.limit, j.measured, Guarded{});
    if (before.outcome != Outcome::unproven) RC_ASSERT(after.outcome == before.outcome);
  });
}

TEST(DecisionProperties, AGuardedPassOfAOneSidedLimitHasAtLeastItsProbability) {
  hold("probability", [] {
    Judged j = anything();
    RC_PRE(!(j.limit.lower && j.limit.upper));
    const double p = real_in(0.6, 0.999);
    const auto verdict = decide(j.limit, j.measured, Guarded{.probability = p});
    RC_ASSERT(verdict.conformance_probability >= 0);
    RC_ASSERT(verdict.conformance_probability <= 1);
    if (verdict.outcome == Outcome::pass) RC_ASSERT(verdict.conformance_probability >= p - 1e-9);
    if (verdict.outcome == Outcome::fail) RC_ASSERT(verdict.conformance_probability <= 1 - p + 1e-9);
  });
}

TEST(DecisionProperties, MirroringValueAndLimitsMirrorsTheSide) {
  hold("mirror", [] {
    const Judged j = anything();
    Judged m;
    if (j.limit.lower) m.limit.upper = -*j.limit.lower;
    if (j.limit.upper) m.limit.lower = -*j.limit.upper;
    m.measured = j.measured;
    m.measured.value = -j.measured.value;
    const auto a = decide(j.limit, j.measured, Guarded{});
    const auto b = decide(m.limit, m.measured, Guarded{});
    RC_ASSERT(a.outcome == b.outcome);
    RC_ASSERT(a.margin == b.margin);
    RC_ASSERT(std::fabs(a.conformance_probability - b.conformance_probability) < 1e-9);
  });
}

TEST(DecisionProperties, WhatSettlesSettles) {
  hold(
      "settling",
      [] {
        Judged j = anything();
        // A value beside a limit, so that most are unproven.
        const Length beside = j.limit.upper ? *j.limit.upper : *j.limit.lower;
        j.measured.u = metres(real_in(0.01, 0.5));
        j.measured.value = beside + real_in(-1.5, 1.5) * j.measured.u;
        const auto verdict = decide(j.limit, j.measured, Guarded{});
        RC_PRE(verdict.settling.u.has_value());
        j.measured.u = *verdict.settling.u * (1 - 1e-9);
        RC_ASSERT(decide(j.limit, j.measured, Guarded{}).outcome != Outcome::unproven);
      },
      1000);
}

}  // namespace
}  // namespace pumpwright

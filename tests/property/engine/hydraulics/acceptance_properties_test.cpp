#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "engine/hydraulics/acceptance.h"
#include "tests/support/given_pump.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using namespace hydraulics;

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10'001) * 1e-4;
}

// Asks the drawn cross directly: does the falling curve cut one of its bars?
bool touches(double scale, double qg, double hg, const Tolerance& t) {
  const auto head = [&](double q) { return scale * given_head_m(q); };
  const bool vertical = head(qg) >= hg * (1 + t.head_low) && head(qg) <= hg * (1 + t.head_high);
  const bool horizontal = head(qg * (1 + t.flow_low)) >= hg && head(qg * (1 + t.flow_high)) <= hg;
  return vertical || horizontal;
}

TEST(AcceptanceProperty, TheTwoMarginsSayWhetherABarIsCut) {
  hold(
      "cross",
      [] {
        const double scale = between(0.85, 1.25), qg = between(0.003, 0.0100);
        const double hg = given_head_m(qg) * between(0.98, 1.02);
        const PerformanceModel model(given_test(scale));
        const auto a = judge_acceptance(model, {cubic_metres_per_second(qg), metres(hg), {}, {}},
                                        {.confirmed = true, .own = {}});
        for (const auto& g : a.grades)
          RC_ASSERT((g.verdict == Outcome::pass) == touches(scale, qg, hg, g.tolerance));
      },
      600);
}

TEST(AcceptanceProperty, AWiderGradeNeverFailsWhatANarrowerOnePasses) {
  hold(
      "order",
      [] {
        const PerformanceModel model(measured_test(between(0.9, 1.1)));
        const auto a = judge_acceptance(model, {cubic_metres_per_second(0.01), metres(30), {}, {}},
                                        {.confirmed = true, .own = {}});
        const auto verdict = [&](Grade g) {
          for (const auto& f : a.grades)
            if (f.grade == g) return f.verdict;
          return Outcome::unproven;
        };
        if (verdict(Grade::g1B) == Outcome::pass) RC_ASSERT(verdict(Grade::g2B) == Outcome::pass);
        if (verdict(Grade::g2B) == Outcome::pass) RC_ASSERT(verdict(Grade::g3B) == Outcome::pass);
        if (verdict(Grade::g3B) == Outcome::fail) RC_ASSERT(verdict(Grade::g1B) == Outcome::fail);
      },
      200);
}

}  // namespace
}  // namespace pumpwright::testing

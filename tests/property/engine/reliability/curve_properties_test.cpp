#include <algorithm>
#include <array>
#include <cmath>

#include "engine/reliability/comparison.h"
#include "engine/reliability/survival_curve.h"
#include "random_lives.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

TEST(CurveProperty, WithoutCensoringItIsTheEmpiricalPart) {
  hold("empirical", [] {
    auto lives = any_lives();
    for (Life& life : lives)
      life.ending = Ending::returned;
    for (const CurveStep& step : survival_curve(lives).steps) {
      const auto longer =
          std::count_if(lives.begin(), lives.end(), [&](const Life& l) { return l.time > step.time; });
      RC_ASSERT(std::fabs(step.surviving - static_cast<double>(longer) / static_cast<double>(lives.size())) <
                1e-13);
    }
  });
}

TEST(CurveProperty, FallsInsideItsBand) {
  hold("band", [] {
    const auto lives = any_lives();
    const auto transform = *rc::gen::element(BandTransform::log, BandTransform::log_log);
    double before = 1;
    for (const CurveStep& step : survival_curve(lives, transform).steps) {
      RC_ASSERT(step.surviving < before && step.surviving >= 0);
      before = step.surviving;
      if (!step.band) continue;
      RC_ASSERT(0 <= step.band->low && step.band->low < step.surviving);
      RC_ASSERT(step.surviving < step.band->high && step.band->high <= 1);
    }
  });
}

TEST(CurveProperty, EndingsAndTheRestAddToOne) {
  hold("incidence", [] {
    const auto lives = any_lives();
    auto all = lives;  // every ending of either kind as one
    for (Life& life : all)
      if (life.ending == Ending::replaced) life.ending = Ending::returned;
    const auto curve = survival_curve(all);
    const auto list = incidence(lives);
    RC_ASSERT(list.size() == curve.steps.size());
    for (std::size_t i = 0; i < list.size(); ++i)
      RC_ASSERT(std::fabs(list[i].returned + list[i].replaced + curve.steps[i].surviving - 1) < 1e-12);
  });
}

TEST(CurveProperty, LogRankDoesNotCareForUnitsOrOrder) {
  hold("log-rank", [] {
    const auto a = any_lives();
    const auto b = any_lives();
    const auto there = log_rank(std::array{a, b});
    const auto back = log_rank(std::array{b, a});
    // A power of two, so that times that coincide still do.
    const auto other_unit = log_rank(std::array{scaled(a, 0x1p20), scaled(b, 0x1p20)});
    RC_ASSERT(std::fabs(there.test.chi_square - back.test.chi_square) < 1e-9 * (1 + there.test.chi_square));
    RC_ASSERT(std::fabs(there.test.chi_square - other_unit.test.chi_square) <
              1e-9 * (1 + there.test.chi_square));
    const double over = static_cast<double>(there.groups[0].returned + there.groups[1].returned) -
                        there.groups[0].expected - there.groups[1].expected;
    RC_ASSERT(std::fabs(over) < 1e-9);
  });
}

}  // namespace
}  // namespace pumpwright::testing

#include <cmath>
#include <numeric>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/property/engine/assembly/random_chain.h"

namespace pumpwright::testing {
namespace {

RC_GTEST_PROP(ChainProperty, SharesSumToOneOrNothingVaries, ()) {
  const ChainAnalysis a = analyse(*any_chain());
  double sum = 0;
  for (const LinkShare& share : a.share) {
    RC_ASSERT(share.fraction >= 0);
    sum += share.fraction;
  }
  RC_ASSERT(a.sd.has_value());
  RC_ASSERT(std::fabs(sum - (a.sd->value() > 0 ? 1 : 0)) < 1e-12);
}

RC_GTEST_PROP(ChainProperty, WorstCaseEnclosesRootSumOfSquares, ()) {
  const ChainAnalysis a = analyse(*any_chain());
  const double slack_m = 1e-12;
  RC_ASSERT(a.worst_min <= a.mean - a.rss_half_width + metres(slack_m));
  RC_ASSERT(a.worst_max >= a.mean + a.rss_half_width - metres(slack_m));
}

// Two links in a row are one link whose nominal and variance add.
RC_GTEST_PROP(ChainProperty, ChainsAddUp, ()) {
  const Chain first = *any_chain();
  const Chain second = *any_chain();
  Chain both = first;
  for (Link link : second.links) {
    link.name += " of the second";
    both.links.push_back(link);
  }
  const ChainAnalysis a = analyse(first);
  const ChainAnalysis b = analyse(second);
  const ChainAnalysis ab = analyse(both);
  RC_ASSERT(std::fabs((a.nominal + b.nominal - ab.nominal).value()) < 1e-12);
  RC_ASSERT(std::fabs((a.worst_max + b.worst_max - ab.worst_max).value()) < 1e-12);
  RC_ASSERT(std::fabs(std::hypot(a.sd->value(), b.sd->value()) - ab.sd->value()) < 1e-12);
}

RC_GTEST_PROP(ChainProperty, TurningEverySignTurnsTheChainRound, ()) {
  const Chain chain = *any_chain();
  Chain turned = chain;
  for (Link& link : turned.links)
    link.coefficient = -link.coefficient;
  const ChainAnalysis a = analyse(chain);
  const ChainAnalysis b = analyse(turned);
  RC_ASSERT(std::fabs((a.worst_min + b.worst_max).value()) < 1e-12);
  RC_ASSERT(std::fabs((a.mean + b.mean).value()) < 1e-12);
  RC_ASSERT(std::fabs((*a.sd - *b.sd).value()) < 1e-15);
}

}  // namespace
}  // namespace pumpwright::testing

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/assembly/monte_carlo.h"
#include "tests/property/engine/assembly/random_chain.h"
#include "tests/support/thread_executor.h"

namespace pumpwright::testing {
namespace {

auto everything(const ChainSimulation& s) {
  return std::tuple(s.mean, s.sd, s.minimum, s.maximum, s.q00135, s.q025, s.median, s.q975, s.q99865,
                    s.probability_inside ? s.probability_inside->value : -1);
}

Chain limited(Chain chain) {
  chain.upper_limit = analyse(chain).mean;
  return chain;
}

RC_GTEST_PROP(MonteCarloProperty, TheNumberOfThreadsChangesNoBit, ()) {
  const Chain chain = limited(*any_chain());
  const MonteCarloSettings settings{static_cast<std::uint64_t>(*rc::gen::inRange(1'000, 40'000)),
                                    *rc::gen::arbitrary<std::uint64_t>()};
  SerialExecutor serial;
  const auto expected = everything(simulate(chain, settings, serial));
  for (const std::size_t threads : {1U, 2U, 3U, 7U}) {
    ThreadExecutor executor(threads);
    RC_ASSERT(everything(simulate(chain, settings, executor)) == expected);
  }
}

RC_GTEST_PROP(MonteCarloProperty, TheOrderOfBlocksChangesNoBit, ()) {
  const Chain chain = limited(*any_chain());
  const MonteCarloSettings settings{30'000, *rc::gen::arbitrary<std::uint64_t>()};
  SerialExecutor forward;
  BackwardExecutor backward;
  RC_ASSERT(everything(simulate(chain, settings, forward)) ==
            everything(simulate(chain, settings, backward)));
}

RC_GTEST_PROP(MonteCarloProperty, WorstCaseEnclosesEverySampleOfBoundedLinks, ()) {
  Chain chain = *any_chain();
  for (Link& link : chain.links)
    if (!is_bounded(link.spread)) link.spread = Spread::rectangular;
  SerialExecutor serial;
  const ChainSimulation s = simulate(chain, {20'000, *rc::gen::arbitrary<std::uint64_t>()}, serial);
  const ChainAnalysis a = analyse(chain);
  RC_ASSERT(s.minimum >= a.worst_min - metres(1e-14));
  RC_ASSERT(s.maximum <= a.worst_max + metres(1e-14));
}

// Six standard errors; the variance's own error is taken for the heaviest tail drawn (t with 3 degrees of
// freedom has none), hence bounded links only.
RC_GTEST_PROP(MonteCarloProperty, MeanAndSdMeetTheClosedForm, ()) {
  Chain chain = *any_chain();
  for (Link& link : chain.links)
    if (link.spread == Spread::student_t) link.spread = Spread::normal;
  SerialExecutor serial;
  constexpr double n = 20'000;
  const ChainSimulation s = simulate(chain, {20'000, *rc::gen::arbitrary<std::uint64_t>()}, serial);
  const ChainAnalysis a = analyse(chain);
  RC_ASSERT(std::fabs((s.mean - a.mean).value()) <= 6 * a.sd->value() / std::sqrt(n) + 1e-14);
  RC_ASSERT(std::fabs(s.sd.value() - a.sd->value()) <= 6 * a.sd->value() / std::sqrt(2 * n) + 1e-14);
}

RC_GTEST_PROP(MonteCarloProperty, ModelAndChainDrawTheSameLaw, ()) {
  const std::vector<Distribution> inputs{Normal{0, 1}, Rectangular{-1, 1}};
  const BlockModel sum = [](std::span<const std::span<const double>> in, std::span<double> out) {
    for (std::size_t i = 0; i < out.size(); ++i)
      out[i] = in[0][i] + in[1][i];
  };
  const MonteCarloSettings settings{10'000, *rc::gen::arbitrary<std::uint64_t>()};
  Chain chain;
  for (const auto& [name, spread] : {std::pair{"n", Spread::normal}, std::pair{"r", Spread::rectangular}}) {
    Link link;
    link.name = name;
    link.spread = spread;
    link.sigmas = 1;
    link.lower_deviation = metres(-1);
    link.upper_deviation = metres(1);
    chain.links.push_back(link);
  }
  SerialExecutor serial;
  const SampleSummary model = propagate(inputs, sum, {{0.5}, {}, {}}, settings, serial);
  const ChainSimulation links = simulate(chain, settings, serial);
  RC_ASSERT(std::fabs(model.mean - links.mean.value()) < 1e-12);
  RC_ASSERT(std::fabs(model.quantiles[0] - links.median.value()) < 1e-12);
}

}  // namespace
}  // namespace pumpwright::testing

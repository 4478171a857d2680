#include "engine/assembly/monte_carlo.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

Chain two_links() {
  Chain chain;
  for (const char* name : {"a", "b"}) {
    Link link;
    link.name = name;
    link.nominal = metres(0.01);
    link.lower_deviation = metres(-3e-5);
    link.upper_deviation = metres(3e-5);
    chain.links.push_back(link);
  }
  return chain;
}

const BlockModel first_input = [](std::span<const std::span<const double>> inputs, std::span<double> out) {
  std::copy(inputs[0].begin(), inputs[0].end(), out.begin());
};

TEST(MonteCarlo, AgreesWithTheClosedFormOfANormalChain) {
  Chain chain = two_links();
  chain.lower_limit = metres(0.02 - 1e-5);
  chain.upper_limit = metres(0.02 + 2e-5);
  SerialExecutor serial;
  const ChainSimulation s = simulate(chain, {200'000, 11}, serial);
  const ChainAnalysis a = analyse(chain);
  EXPECT_NEAR(s.mean.value(), a.mean.value(), 4 * a.sd->value() / std::sqrt(200'000.0));
  EXPECT_NEAR(s.sd.value() / a.sd->value(), 1, 4 / std::sqrt(2 * 200'000.0));
  ASSERT_TRUE(s.probability_inside);
  EXPECT_NEAR(s.probability_inside->value, *a.exact_probability_inside,
              4 * s.probability_inside->standard_error);
  EXPECT_NEAR(s.probability_inside->standard_error,
              std::sqrt(*a.exact_probability_inside * (1 - *a.exact_probability_inside) / 200'000), 1e-5);
}

TEST(MonteCarlo, QuantilesComeInOrder) {
  SerialExecutor serial;
  const ChainSimulation s = simulate(two_links(), {5'000, 1}, serial);
  EXPECT_LE(s.minimum, s.q00135);
  EXPECT_LT(s.q00135, s.q025);
  EXPECT_LT(s.q025, s.median);
  EXPECT_LT(s.median, s.q975);
  EXPECT_LT(s.q975, s.q99865);
  EXPECT_LE(s.q99865, s.maximum);
  EXPECT_FALSE(s.probability_inside);
}

TEST(MonteCarlo, SeedChangesTheSamples) {
  SerialExecutor serial;
  EXPECT_NE(simulate(two_links(), {5'000, 1}, serial).mean, simulate(two_links(), {5'000, 2}, serial).mean);
}

TEST(MonteCarlo, AChainThatCanNotVaryHasOneValueEverywhere) {
  Chain chain = two_links();
  for (Link& link : chain.links)
    link.lower_deviation = link.upper_deviation = metres(0);
  chain.lower_limit = metres(0);
  SerialExecutor serial;
  const ChainSimulation s = simulate(chain, {10'000, 1}, serial);
  EXPECT_EQ(s.mean, metres(0.02));
  EXPECT_EQ(s.sd, metres(0));
  EXPECT_EQ(s.q00135, metres(0.02));
  EXPECT_EQ(s.q99865, metres(0.02));
  EXPECT_EQ(s.probability_inside->value, 1.0);
  EXPECT_EQ(s.probability_inside->standard_error, 1e-4);
}

// Heavy tails put single samples far outside all others; a spike puts most samples in one place.
TEST(MonteCarlo, ExtremeShapesKeepTheirQuantiles) {
  SerialExecutor serial;
  const std::vector<Distribution> cauchy{StudentT{0, 1, 1}};
  const SampleSummary heavy = propagate(cauchy, first_input, {{0.25, 0.75}, {}, {}}, {400'000, 3}, serial);
  EXPECT_NEAR(heavy.quantiles[0], -1, 0.02);
  EXPECT_NEAR(heavy.quantiles[1], 1, 0.02);

  const std::vector<Distribution> uniform{Rectangular{0, 1}};
  const BlockModel spike = [](std::span<const std::span<const double>> in, std::span<double> out) {
    for (std::size_t i = 0; i < out.size(); ++i)
      out[i] = in[0][i] < 0.9 ? 7.0 : in[0][i];
  };
  const SampleSummary spiked = propagate(uniform, spike, {{0.05, 0.5}, {}, {}}, {100'000, 3}, serial);
  EXPECT_NEAR(spiked.quantiles[0], 0.95, 0.01);
  EXPECT_EQ(spiked.quantiles[1], 7.0);
}

// A model that is unlike itself while the pilot looks: nothing the pilot saw helps.
TEST(MonteCarlo, AMisleadingPilotCostsASecondPassAndNotTheAnswer) {
  constexpr std::uint64_t pilot_blocks = 16;
  constexpr std::uint64_t all_blocks = 40;
  std::uint64_t calls = 0;
  const BlockModel late_jump = [&calls](std::span<const std::span<const double>> in, std::span<double> out) {
    const double jump = calls++ < pilot_blocks ? 0 : 1000;
    for (std::size_t i = 0; i < out.size(); ++i)
      out[i] = in[0][i] + jump;
  };
  const std::vector<Distribution> uniform{Rectangular{0, 1}};
  SerialExecutor serial;
  const SampleSummary s = propagate(uniform, late_jump, {{0.5}, {}, {}}, {all_blocks * 1024, 3}, serial);
  EXPECT_EQ(calls, pilot_blocks + 2 * all_blocks);
  EXPECT_NEAR(s.quantiles[0], 1000.5, 0.01);
  EXPECT_NEAR(s.mean, 1000.5, 0.01);
}

TEST(MonteCarlo, RefusesSettingsRequestsAndModelsItCanNotServe) {
  SerialExecutor serial;
  const std::vector<Distribution> uniform{Rectangular{0, 1}};
  EXPECT_THROW(simulate(two_links(), {999, 1}, serial), BadInput);
  EXPECT_THROW(simulate(two_links(), {100'000'001, 1}, serial), BadInput);
  EXPECT_THROW(simulate({}, {10'000, 1}, serial), BadInput);
  EXPECT_THROW(propagate({}, first_input, {}, {10'000, 1}, serial), BadInput);
  EXPECT_THROW(propagate(uniform, first_input, {{0.0}, {}, {}}, {10'000, 1}, serial), BadInput);
  EXPECT_THROW(propagate(uniform, first_input, {{1.0}, {}, {}}, {10'000, 1}, serial), BadInput);
  EXPECT_THROW(propagate(uniform, first_input, {std::vector<double>(17, 0.5), {}, {}}, {10'000, 1}, serial),
               BadInput);
  EXPECT_THROW(propagate(uniform, first_input, {{}, std::nan(""), {}}, {10'000, 1}, serial), BadInput);
  const std::vector<Distribution> backwards{Rectangular{1, 0}};
  EXPECT_THROW(propagate(backwards, first_input, {}, {10'000, 1}, serial), BadInput);

  for (const double broken :
       {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    const BlockModel model = [broken](std::span<const std::span<const double>>, std::span<double> out) {
      std::fill(out.begin(), out.end(), 0.0);
      out[out.size() / 2] = broken;
    };
    EXPECT_THROW(propagate(uniform, model, {{0.5}, {}, {}}, {10'000, 1}, serial), BadInput);
  }
}

}  // namespace
}  // namespace pumpwright

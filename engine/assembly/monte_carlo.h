// Propagation of distributions by Monte Carlo (JCGM 101:2008): what a dimension chain, or any measurement
// model, really does when its inputs vary, including how often it lies inside its limits.
//
// The result depends on the inputs, `samples` and `seed` alone. It is the same bit for bit for every
// executor and every number of threads: samples come in blocks of fixed size with a random stream each, and
// blocks are reduced in order. Quantiles are exact order statistics of the samples (not read from a
// histogram); memory stays near 8 % of what storing the samples would take.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "engine/assembly/chain.h"
#include "engine/assembly/distribution.h"
#include "engine/executor.h"
#include "engine/quantity/quantity.h"

namespace pumpwright {

struct MonteCarloSettings {
  std::uint64_t samples = 1'000'000;  // 1000 to 100 000 000, else BadInput "samples"
  std::uint64_t seed = 1;
};

// A proportion found by sampling.
struct SampledProbability {
  double value = 0;
  double standard_error = 0;  // sqrt(p (1 - p) / N); when all or none lie inside, that of one sample: 1 / N
};

// What a set of samples says, in the unit of the model's output.
struct SampleSummary {
  std::uint64_t samples = 0;
  double mean = 0;
  double sd = 0;  // divided by N - 1
  double minimum = 0;
  double maximum = 0;
  std::vector<double> quantiles;             // in the order asked for
  std::optional<SampledProbability> inside;  // when a limit was given
};

struct SummaryRequest {
  std::vector<double> quantile_probabilities;  // each in (0, 1); at most 16
  std::optional<double> lower_limit;           // inside means lower_limit <= y <= upper_limit
  std::optional<double> upper_limit;
};

// Model of a measurement: fills out[i] from inputs[k][i] (k-th input, i-th sample) for every i. Called for
// many blocks, possibly at once from several threads: it must not keep state. All spans have the same length.
using BlockModel =
    std::function<void(std::span<const std::span<const double>> inputs, std::span<double> out)>;

// Samples independent inputs and summarises the model's output. `inputs` 1 to 1000.
// The p-quantile is the order statistic y_(r), r = ceil(p N) (JCGM 101:2008, 7.7, gives an interval of such
// order statistics). Throws BadInput for settings, requests or distributions outside their stated ranges, and
// when the model gives a value that is not finite (field "model").
SampleSummary propagate(std::span<const Distribution> inputs, const BlockModel& model,
                        const SummaryRequest& request, const MonteCarloSettings& settings,
                        Executor& executor);

struct ChainSimulation {
  std::uint64_t samples = 0;
  std::uint64_t seed = 0;
  Length mean;
  Length sd;
  Length minimum;
  Length maximum;
  Length q00135;  // 0.135 %: where -3 sigma of a normal lies
  Length q025;    // 2.5 %
  Length median;
  Length q975;                                           // 97.5 %
  Length q99865;                                         // 99.865 %
  std::optional<SampledProbability> probability_inside;  // when the chain has a limit
};

// Samples the chain. Throws BadInput for a chain that require_valid refuses, or bad settings.
ChainSimulation simulate(const Chain& chain, const MonteCarloSettings& settings, Executor& executor);

}  // namespace pumpwright

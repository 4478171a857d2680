#include "engine/assembly/monte_carlo.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "engine/assembly/input_check.h"
#include "engine/assembly/order_statistics.h"
#include "engine/assembly/random_stream.h"
#include "engine/assembly/vector_loop.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr std::size_t block_size = RandomStream::max_fill;
constexpr std::uint64_t pilot_blocks = 16;
constexpr std::uint64_t most_parts =
    256;  // of the work; bounds the memory for counts, and is plenty for any machine
constexpr std::uint64_t fewest_samples = 1'000;
constexpr std::uint64_t most_samples = 100'000'000;
constexpr std::size_t most_inputs = 1000;
constexpr std::size_t most_quantiles = 16;

// Makes the samples of one block. `scratch` is the caller's, kept from block to block.
using BlockSource =
    std::function<void(std::uint64_t block, std::span<double> out, std::vector<double>& scratch)>;

// Sums of one block, about a value near the mean so that nothing cancels.
struct BlockSums {
  double first = 0;
  double second = 0;
  double minimum = std::numeric_limits<double>::infinity();
  double maximum = -std::numeric_limits<double>::infinity();
  std::uint64_t inside = 0;
};

struct Range {
  double lower = -std::numeric_limits<double>::infinity();
  double upper = std::numeric_limits<double>::infinity();
};

constexpr std::size_t lanes = 8;

// Eight running sums side by side, so that the order of addition is fixed and vector registers can be used.
struct LaneSums {
  std::array<double, lanes> first{};
  std::array<double, lanes> second{};
  std::array<double, lanes> low{};
  std::array<double, lanes> high{};
  std::array<double, lanes> inside{};
};

PUMPWRIGHT_VECTOR_LOOP
void add_to_lanes(LaneSums& sums, const double* values, std::size_t count, double about, Range inside) {
  LaneSums s = sums;
  for (std::size_t i = 0; i < count; i += lanes)
    for (std::size_t l = 0; l < lanes; ++l) {
      const double value = values[i + l];
      const double d = value - about;
      s.first[l] += d;
      s.second[l] += d * d;
      s.low[l] = value < s.low[l] ? value : s.low[l];
      s.high[l] = value > s.high[l] ? value : s.high[l];
      const double not_low = value >= inside.lower ? 1.0 : 0.0;
      const double not_high = value <= inside.upper ? 1.0 : 0.0;
      s.inside[l] += not_low * not_high;
    }
  sums = s;
}

BlockSums sums_of(std::span<const double> values, double about, Range inside) {
  LaneSums sums;
  sums.low.fill(std::numeric_limits<double>::infinity());
  sums.high.fill(-std::numeric_limits<double>::infinity());
  const std::size_t whole = values.size() / lanes * lanes;
  add_to_lanes(sums, values.data(), whole, about, inside);

  BlockSums all{0, 0, sums.low[0], sums.high[0], 0};
  double count_inside = 0;
  for (std::size_t l = 0; l < lanes; ++l) {
    all.first += sums.first[l];
    all.second += sums.second[l];
    all.minimum = std::min(all.minimum, sums.low[l]);
    all.maximum = std::max(all.maximum, sums.high[l]);
    count_inside += sums.inside[l];
  }
  for (const double value : values.subspan(whole)) {
    all.first += value - about;
    all.second += (value - about) * (value - about);
    all.minimum = std::min(all.minimum, value);
    all.maximum = std::max(all.maximum, value);
    if (value >= inside.lower && value <= inside.upper) count_inside += 1;
  }
  all.inside = static_cast<std::uint64_t>(count_inside);
  return all;
}

struct Work {
  const BlockSource& source;
  std::uint64_t samples = 0;
  double about = 0;
  Range inside;

  std::uint64_t blocks() const { return (samples + block_size - 1) / block_size; }
  std::uint64_t parts() const { return std::min(blocks(), most_parts); }
  std::uint64_t first_block(std::uint64_t part) const { return blocks() * part / parts(); }
  std::size_t size_of(std::uint64_t block) const {
    return static_cast<std::size_t>(std::min<std::uint64_t>(block_size, samples - block * block_size));
  }
};

// A sum of differences is finite only when every value is.
void require_finite(double sum) {
  if (!std::isfinite(sum))
    throw BadInput(
        {"model", "", "a result that is not finite", "a model that is finite for every input it can meet"});
}

std::vector<double> sorted_pilot(const Work& work) {
  const std::uint64_t blocks = std::min(work.blocks(), pilot_blocks);
  std::vector<double> scratch;
  std::vector<double> pilot(static_cast<std::size_t>(std::min(work.samples, blocks * block_size)));
  for (std::uint64_t block = 0; block < blocks; ++block)
    work.source(block,
                std::span(pilot).subspan(static_cast<std::size_t>(block) * block_size, work.size_of(block)),
                scratch);
  require_finite(sums_of(pilot, 0, {}).first);
  std::sort(pilot.begin(), pilot.end());
  return pilot;
}

// One pass over all samples. Parts are independent; their results are read in order afterwards.
std::vector<BinnedSamples> pass(const Work& work, const Bins& bins, std::span<const std::uint8_t> keep,
                                std::span<BlockSums> sums, Executor& executor) {
  std::vector<BinnedSamples> parts(static_cast<std::size_t>(work.parts()), BinnedSamples(bins, keep));
  executor.run(parts.size(), [&](std::size_t part) {
    std::array<double, block_size> values;
    std::vector<double> scratch;
    BinnedSamples binned(bins, keep);
    for (std::uint64_t block = work.first_block(part); block < work.first_block(part + 1); ++block) {
      const auto out = std::span(values).first(work.size_of(block));
      work.source(block, out, scratch);
      const BlockSums block_sums = sums_of(out, work.about, work.inside);
      require_finite(block_sums.first);
      sums[static_cast<std::size_t>(block)] = block_sums;
      binned.add(out);
    }
    parts[part] = std::move(binned);
  });
  return parts;
}

// r - 1 with r = ceil(p N); the factor keeps a product like 0.00135 * 1e7 from being rounded up past a whole
// number.
std::vector<std::uint64_t> ranks_of(std::span<const double> probabilities, std::uint64_t samples) {
  std::vector<std::uint64_t> ranks;
  for (const double p : probabilities) {
    const double r = std::ceil(p * static_cast<double>(samples) * (1 - 1e-14));
    ranks.push_back(std::clamp<std::uint64_t>(static_cast<std::uint64_t>(r), 1, samples) - 1);
  }
  return ranks;
}

std::vector<double> quantiles_of(const Work& work, const SummaryRequest& request, const Bins& bins,
                                 std::span<const double> pilot, std::span<BlockSums> sums,
                                 Executor& executor) {
  const std::vector<std::uint64_t> ranks = ranks_of(request.quantile_probabilities, work.samples);
  std::vector<std::uint8_t> keep = bins_to_keep(pilot, request.quantile_probabilities, bins);
  std::vector<BinnedSamples> parts = pass(work, bins, keep, sums, executor);
  const std::vector<RankPlace> places = places_of(ranks, parts);
  if (std::any_of(places.begin(), places.end(), [&](const RankPlace& p) { return keep[p.bin] == 0; })) {
    std::fill(keep.begin(), keep.end(), std::uint8_t{0});
    for (const RankPlace& place : places)
      keep[place.bin] = 1;
    parts = pass(work, bins, keep, sums, executor);
  }
  return values_at(places, parts, bins);
}

SampledProbability proportion(std::uint64_t inside, std::uint64_t samples) {
  const auto n = static_cast<double>(samples);
  const double p = static_cast<double>(inside) / n;
  const bool all_or_none = inside == 0 || inside == samples;
  return {p, all_or_none ? 1 / n : std::sqrt(p * (1 - p) / n)};
}

void put_moments(SampleSummary& summary, std::span<const BlockSums> sums, double about, bool limits_given) {
  BlockSums all;
  for (const BlockSums& block : sums) {
    all.first += block.first;
    all.second += block.second;
    all.minimum = std::min(all.minimum, block.minimum);
    all.maximum = std::max(all.maximum, block.maximum);
    all.inside += block.inside;
  }
  const auto n = static_cast<double>(summary.samples);
  summary.mean = about + all.first / n;
  summary.sd = std::sqrt(std::max(0.0, all.second - all.first * all.first / n) / (n - 1));
  summary.minimum = all.minimum;
  summary.maximum = all.maximum;
  if (limits_given) summary.inside = proportion(all.inside, summary.samples);
}

SampleSummary summarise(const BlockSource& source, const SummaryRequest& request, std::uint64_t samples,
                        Executor& executor) {
  Work work{source, samples, 0, {}};
  if (request.lower_limit) work.inside.lower = *request.lower_limit;
  if (request.upper_limit) work.inside.upper = *request.upper_limit;
  const std::vector<double> pilot = sorted_pilot(work);
  work.about = pilot[pilot.size() / 2];
  const Bins bins(pilot.front(), pilot.back());
  std::vector<BlockSums> sums(static_cast<std::size_t>(work.blocks()));
  SampleSummary summary;
  summary.samples = samples;
  summary.quantiles = quantiles_of(work, request, bins, pilot, sums, executor);
  put_moments(summary, sums, work.about, request.lower_limit || request.upper_limit);
  return summary;
}

void require_valid(const MonteCarloSettings& settings) {
  if (settings.samples < fewest_samples || settings.samples > most_samples)
    throw BadInput({"samples", "", fmt::format("{}", settings.samples),
                    fmt::format("a number of samples from {} to {}", fewest_samples, most_samples)});
}

void require_valid(const SummaryRequest& request) {
  if (request.quantile_probabilities.size() > most_quantiles)
    throw BadInput({"quantiles", "", fmt::format("{} probabilities", request.quantile_probabilities.size()),
                    fmt::format("at most {}", most_quantiles)});
  for (const double p : request.quantile_probabilities)
    require_that(p > 0 && p < 1, p, "quantiles", "probabilities between 0 and 1");
  if (request.lower_limit)
    require_that(std::isfinite(*request.lower_limit), *request.lower_limit, "lower_limit", "a finite number");
  if (request.upper_limit)
    require_that(std::isfinite(*request.upper_limit), *request.upper_limit, "upper_limit", "a finite number");
}

enum class Draw { standard_normal, unit_uniform, as_given };

// A link ready for sampling: `factor` times what is drawn is its share of the sum's deviation.
struct DrawnLink {
  Draw draw = Draw::as_given;
  double factor = 1;
  Distribution distribution;  // for as_given
};

// A chain cut for sampling: what varies, and the sum of what does not. Normal and rectangular links, nearly
// all there are, are drawn in standard form, which saves a pass over memory.
struct DrawnChain {
  std::vector<DrawnLink> links;
  double fixed_m = 0;
};

DrawnChain drawn(const Chain& chain) {
  DrawnChain result;
  for (const Link& link : chain.links) {
    const Distribution d = distribution_of(link);
    if (is_constant(d)) {
      result.fixed_m += link.coefficient * mean_of(d);
    } else if (const auto* normal = std::get_if<Normal>(&d)) {
      result.fixed_m += link.coefficient * normal->mean;
      result.links.push_back({Draw::standard_normal, link.coefficient * normal->sd, {}});
    } else if (const auto* rectangle = std::get_if<Rectangular>(&d)) {
      result.fixed_m += link.coefficient * rectangle->lower;
      result.links.push_back(
          {Draw::unit_uniform, link.coefficient * (rectangle->upper - rectangle->lower), {}});
    } else {
      result.links.push_back({Draw::as_given, link.coefficient, d});
    }
  }
  return result;
}

PUMPWRIGHT_VECTOR_LOOP
void add_scaled(double* sum, const double* values, std::size_t count, double factor) {
  for (std::size_t i = 0; i < count; ++i)
    sum[i] += factor * values[i];
}

void sample_chain(const DrawnChain& chain, RandomStream stream, std::span<double> out) {
  std::array<double, block_size> buffer;
  const auto values = std::span(buffer).first(out.size());
  std::fill(out.begin(), out.end(), 0.0);
  for (const DrawnLink& link : chain.links) {
    switch (link.draw) {
      case Draw::standard_normal:
        stream.fill_normal(values);
        break;
      case Draw::unit_uniform:
        stream.fill_uniform(values);
        break;
      case Draw::as_given:
        stream.fill(link.distribution, values);
        break;
    }
    add_scaled(out.data(), values.data(), out.size(), link.factor);
  }
  for (double& value : out)
    value += chain.fixed_m;
}

}  // namespace

SampleSummary propagate(std::span<const Distribution> inputs, const BlockModel& model,
                        const SummaryRequest& request, const MonteCarloSettings& settings,
                        Executor& executor) {
  require_valid(settings);
  require_valid(request);
  if (inputs.empty() || inputs.size() > most_inputs)
    throw BadInput(
        {"inputs", "", fmt::format("{} inputs", inputs.size()), fmt::format("1 to {} inputs", most_inputs)});
  for (std::size_t k = 0; k < inputs.size(); ++k)
    require_valid(inputs[k], fmt::format("inputs/{}", k));

  const BlockSource source = [&](std::uint64_t block, std::span<double> out, std::vector<double>& scratch) {
    RandomStream stream(settings.seed, block);
    scratch.resize(inputs.size() * block_size);
    std::vector<std::span<const double>> columns;
    for (std::size_t k = 0; k < inputs.size(); ++k) {
      const auto column = std::span(scratch).subspan(k * block_size, out.size());
      stream.fill(inputs[k], column);
      columns.emplace_back(column);
    }
    model(columns, out);
  };
  return summarise(source, request, settings.samples, executor);
}

ChainSimulation simulate(const Chain& chain, const MonteCarloSettings& settings, Executor& executor) {
  require_valid(chain);
  require_valid(settings);
  const DrawnChain links = drawn(chain);
  const BlockSource source = [&](std::uint64_t block, std::span<double> out, std::vector<double>&) {
    sample_chain(links, RandomStream(settings.seed, block), out);
  };
  SummaryRequest request;
  request.quantile_probabilities = {0.00135, 0.025, 0.5, 0.975, 0.99865};
  if (chain.lower_limit) request.lower_limit = chain.lower_limit->value();
  if (chain.upper_limit) request.upper_limit = chain.upper_limit->value();
  const SampleSummary s = summarise(source, request, settings.samples, executor);
  return {s.samples,
          settings.seed,
          metres(s.mean),
          metres(s.sd),
          metres(s.minimum),
          metres(s.maximum),
          metres(s.quantiles[0]),
          metres(s.quantiles[1]),
          metres(s.quantiles[2]),
          metres(s.quantiles[3]),
          metres(s.quantiles[4]),
          s.inside};
}

}  // namespace pumpwright

#include "engine/hydraulics/acceptance_chance.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/assembly/random_stream.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright::hydraulics {
namespace {

constexpr std::size_t block_size = RandomStream::max_fill;
constexpr std::uint64_t samples_min = 1000;
constexpr std::uint64_t samples_max = 100'000'000;
const double root12 = std::sqrt(12.0);

struct Counts {
  std::vector<std::uint64_t> met;
  double sum_m = 0, sum_squares_m2 = 0;  // of the head about its value as read
};

struct Task {
  const PerformanceModel& model;
  const MarginSet& set;
  double flow_m3_s, head_m;
  std::uint64_t seed;
};

// Factors by which a standard deviation known from `dof` residuals may be too small: sqrt(dof/χ²).
std::vector<double> scatter_factors(RandomStream& stream, double dof, std::size_t count) {
  std::vector<double> squares(count), normal(count);
  for (int k = 0; k < static_cast<int>(dof); ++k) {
    stream.fill_normal(normal);
    for (std::size_t i = 0; i < count; ++i)
      squares[i] += normal[i] * normal[i];
  }
  for (auto& s : squares)
    s = std::sqrt(dof / s);
  return squares;
}

// All unknowns of a block, one row a source.
std::vector<std::vector<double>> drawn(RandomStream& stream, std::span<const ErrorSource> sources,
                                       std::size_t count) {
  std::vector<std::vector<double>> rows(sources.size(), std::vector<double>(count));
  std::vector<double> factors;
  std::string factors_of;
  for (std::size_t s = 0; s < sources.size(); ++s) {
    if (sources[s].rectangular) {
      stream.fill_uniform(rows[s]);
      for (double& z : rows[s])
        z = (z - 0.5) * root12;
      continue;
    }
    stream.fill_normal(rows[s]);
    if (std::isinf(sources[s].dof)) continue;
    if (factors_of != sources[s].name) {
      factors = scatter_factors(stream, sources[s].dof, count);
      factors_of = sources[s].name;
    }
    for (std::size_t i = 0; i < count; ++i)
      rows[s][i] *= factors[i];
  }
  return rows;
}

Counts count_block(const Task& task, std::uint64_t block, std::size_t count) {
  RandomStream stream(task.seed, block);
  const auto sources = task.model.sources();
  const auto rows = drawn(stream, sources, count);
  Counts counts{std::vector<std::uint64_t>(task.set.grades().size()), 0, 0};
  std::vector<double> z(sources.size()), margins(task.set.entries().size());
  std::vector<char> met(task.set.grades().size());
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t s = 0; s < sources.size(); ++s)
      z[s] = rows[s][i];
    const PumpCurves curves = task.model.curves_at(z);
    const double off_m = curves.head.at(task.flow_m3_s) - task.head_m;
    counts.sum_m += off_m;
    counts.sum_squares_m2 += off_m * off_m;
    task.set.margins(curves, margins);
    std::fill(met.begin(), met.end(), char{1});
    for (std::size_t k = 0; k < margins.size(); ++k)
      if (!(margins[k] >= 0)) met[task.set.entries()[k].grade] = 0;
    for (std::size_t g = 0; g < met.size(); ++g)
      counts.met[g] += met[g] != 0 ? 1U : 0U;
  }
  return counts;
}

SampledProbability proportion(std::uint64_t met, std::uint64_t samples) {
  const auto n = static_cast<double>(samples);
  const double p = static_cast<double>(met) / n;
  return {p, met == 0 || met == samples ? 1 / n : std::sqrt(p * (1 - p) / n)};
}

}  // namespace

SampledAcceptance sample_acceptance(const PerformanceModel& model, const Guarantee& guarantee,
                                    const GradeRule& rule, const MonteCarloSettings& settings,
                                    Executor& executor) {
  if (settings.samples < samples_min || settings.samples > samples_max)
    throw BadInput({"samples", "", fmt::format("{}", settings.samples),
                    fmt::format("a number of samples from {} to {}", samples_min, samples_max)});
  const MarginSet set(model, guarantee, rule);
  const double flow = guarantee.flow.value();
  const Task task{model, set, flow, model.curves().head.at(flow), settings.seed};
  const std::uint64_t blocks = (settings.samples + block_size - 1) / block_size;
  std::vector<Counts> counts(static_cast<std::size_t>(blocks));
  executor.run(counts.size(), [&](std::size_t b) {
    const std::uint64_t left = settings.samples - b * block_size;
    counts[b] = count_block(task, b, static_cast<std::size_t>(std::min<std::uint64_t>(block_size, left)));
  });
  SampledAcceptance out;
  out.samples = settings.samples;
  out.seed = settings.seed;
  double sum = 0, squares = 0;
  std::vector<std::uint64_t> met(set.grades().size());
  for (const Counts& c : counts) {
    sum += c.sum_m;
    squares += c.sum_squares_m2;
    for (std::size_t g = 0; g < met.size(); ++g)
      met[g] += c.met[g];
  }
  const auto n = static_cast<double>(settings.samples);
  out.head_mean_m = task.head_m + sum / n;
  out.head_sd_m = std::sqrt(std::max(0.0, squares - sum * sum / n) / (n - 1));
  for (std::size_t g = 0; g < met.size(); ++g)
    out.grades.push_back({set.grades()[g], proportion(met[g], settings.samples)});
  return out;
}

}  // namespace pumpwright::hydraulics

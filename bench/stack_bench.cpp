// How fast a dimension chain is sampled: 1e7 samples of 8 links (4 normal, 4 rectangular), with quantiles,
// mean, sd and probability inside, on one and two threads; beside NumPy doing the same on one; beside raw
// random words.
//
// The shortest of a few runs counts: everything else on the machine can only make a run longer. NumPy's
// generators draw on one core whatever the machine has; "two cores" is therefore the fair share of the
// machine for the program, not for NumPy.
#include <array>
#include <cstdint>
#include <cstdio>
#include <random>
#include <string>

#include <fmt/format.h>

#include "bench/shortest.h"
#include "engine/assembly/monte_carlo.h"
#include "engine/assembly/random_stream.h"
#include "tests/support/thread_executor.h"

namespace {

using namespace pumpwright;

constexpr std::uint64_t samples = 10'000'000;
constexpr int links = 8;
constexpr int repeats = 5;

Chain mixed_chain() {
  Chain chain;
  for (int i = 0; i < links; ++i) {
    Link link;
    link.name = "link " + std::to_string(i);
    link.coefficient = i % 2 == 0 ? -1 : 1;
    link.nominal = metres(0.02);
    link.lower_deviation = metres(-1e-4);
    link.upper_deviation = metres(1e-4);
    link.spread = i < 4 ? Spread::normal : Spread::rectangular;
    chain.links.push_back(link);
  }
  chain.lower_limit = metres(-1e-4);
  chain.upper_limit = metres(1e-4);
  return chain;
}

void row(const std::string& what, double seconds, double numpy_s) {
  fmt::print("{:<48} {:>9.1f} ms {:>8.2f} ns/link sample", what, seconds * 1e3,
             seconds * 1e9 / static_cast<double>(samples * links));
  if (numpy_s > 0) fmt::print("  {:>6.1f} x NumPy", numpy_s / seconds);
  fmt::print("\n");
}

struct NumPyRun {
  double seconds = 0;
  std::array<double, 5> result{};
};

NumPyRun run_numpy() {
  NumPyRun run;
  const std::string command =
      fmt::format("{} '{}' {} {}", PUMPWRIGHT_PYTHON, PUMPWRIGHT_STACK_REFERENCE, samples, repeats);
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return run;
  auto& r = run.result;
  const int read =
      std::fscanf(pipe, "%lf %lf %lf %lf %lf %lf", &run.seconds, &r[0], &r[1], &r[2], &r[3], &r[4]);
  if (pclose(pipe) != 0 || read != 6) run.seconds = 0;
  return run;
}

double raw_words_s() {
  std::array<std::uint64_t, RandomStream::max_fill> words;
  std::uint64_t used = 0;
  const double seconds = shortest_s(repeats, [&] {
    RandomStream stream(1, 0);
    for (std::uint64_t done = 0; done < samples * links; done += words.size()) {
      stream.fill_words(words);
      used ^= words[done % words.size()];
    }
  });
  if (used == 0) fmt::print("(no words drawn)\n");  // keeps the loop from being removed
  return seconds;
}

double mersenne_words_s() {
  std::mt19937_64 engine(1);
  std::uint64_t used = 0;
  const double seconds = shortest_s(repeats, [&] {
    for (std::uint64_t i = 0; i < samples * links; ++i)
      used ^= engine();
  });
  if (used == 0) fmt::print("(no words drawn)\n");
  return seconds;
}

}  // namespace

int main() {
  const Chain chain = mixed_chain();
  ChainSimulation result;
  const auto simulate_on = [&](std::size_t threads) {
    testing::ThreadExecutor executor(threads);
    return shortest_s(repeats, [&] { result = simulate(chain, {samples, 1}, executor); });
  };
  const double one_s = simulate_on(1);
  const double two_s = simulate_on(2);
  const NumPyRun numpy = run_numpy();

  fmt::print(
      "{} samples x {} links (4 normal, 4 rectangular): sum, 5 quantiles, mean, sd, share inside; shortest "
      "of {}\n\n",
      samples, links, repeats);
  row("stack, 1 thread", one_s, numpy.seconds);
  row("stack, 2 threads", two_s, numpy.seconds);
  if (numpy.seconds > 0)
    row("NumPy, the same", numpy.seconds, 0);
  else
    fmt::print("NumPy could not be run\n");
  row("raw 64-bit words, this generator, 1 thread", raw_words_s(), 0);
  row("raw 64-bit words, std::mt19937_64, 1 thread", mersenne_words_s(), 0);

  const auto compare = [](const char* name, double ours, double theirs) {
    fmt::print("{:<12} {:>16.9g} {:>16.9g}\n", name, ours, theirs);
  };
  fmt::print("\n{:<12} {:>16} {:>16}\n", "", "stack", "NumPy");
  compare("mean [m]", result.mean.value(), numpy.result[0]);
  compare("sd [m]", result.sd.value(), numpy.result[1]);
  compare("0.135 % [m]", result.q00135.value(), numpy.result[2]);
  compare("99.865 % [m]", result.q99865.value(), numpy.result[3]);
  compare("inside", result.probability_inside->value, numpy.result[4]);
  return numpy.seconds > 0 ? 0 : 1;
}

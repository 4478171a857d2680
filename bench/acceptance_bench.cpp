// How fast the chance of acceptance is drawn: 1e6 draws of a test of nine points with five instruments, a
// quadratic through every draw, all six grades judged, on one and two threads; beside NumPy doing the same
// for one grade on one.
//
// The shortest of a few runs counts: everything else on the machine can only make a run longer.
#include <cstdint>
#include <cstdio>
#include <string>

#include <fmt/format.h>

#include "bench/shortest.h"
#include "engine/hydraulics/acceptance_chance.h"
#include "tests/support/given_pump.h"
#include "tests/support/thread_executor.h"

namespace {

using namespace pumpwright;

constexpr std::uint64_t samples = 1'000'000;
constexpr int repeats = 3;

struct NumPyRun {
  double seconds = 0, chance = 0, mean = 0, sd = 0;
};

NumPyRun run_numpy() {
  NumPyRun r;
  const std::string command =
      fmt::format("{} '{}' {} {}", PUMPWRIGHT_PYTHON, PUMPWRIGHT_ACCEPTANCE_REFERENCE, samples, repeats);
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return r;
  const int read = std::fscanf(pipe, "%lf %lf %lf %lf", &r.seconds, &r.chance, &r.mean, &r.sd);
  if (pclose(pipe) != 0 || read != 4) r.seconds = 0;
  return r;
}

void row(const std::string& what, double seconds, double numpy_s) {
  fmt::print("{:<40} {:>9.1f} ms {:>8.0f} ns/draw", what, seconds * 1e3, seconds * 1e9 / samples);
  if (numpy_s > 0) fmt::print("  {:>6.1f} x NumPy", numpy_s / seconds);
  fmt::print("\n");
}

}  // namespace

int main() {
  auto test = testing::measured_test(0.965);
  for (auto& point : test.points)
    point.shaft_power.reset();  // heads alone, as the reference
  const hydraulics::PerformanceModel model(test);
  const hydraulics::Guarantee promised{cubic_metres_per_second(0.01), metres(30), {}, {}};
  hydraulics::SampledAcceptance result;
  const auto sample_on = [&](std::size_t threads) {
    testing::ThreadExecutor executor(threads);
    return shortest_s(repeats, [&] {
      result = hydraulics::sample_acceptance(model, promised, {.own = {}}, {samples, 1}, executor);
    });
  };
  const double one_s = sample_on(1);
  const double two_s = sample_on(2);
  const NumPyRun numpy = run_numpy();

  fmt::print("{} draws of 9 points and 5 instruments, quadratic through each; shortest of {}\n\n", samples,
             repeats);
  row("six grades, 1 thread", one_s, numpy.seconds);
  row("six grades, 2 threads", two_s, numpy.seconds);
  if (numpy.seconds > 0)
    row("NumPy, one grade", numpy.seconds, 0);
  else
    fmt::print("NumPy could not be run\n");
  fmt::print("\n{:<16} {:>14} {:>14}\n", "", "ours", "NumPy");
  fmt::print("{:<16} {:>14.5f} {:>14.5f}\n", "chance of 1B", result.grades[0].chance.value, numpy.chance);
  fmt::print("{:<16} {:>14.6f} {:>14.6f}\n", "mean head [m]", result.head_mean_m, numpy.mean);
  fmt::print("{:<16} {:>14.6f} {:>14.6f}\n", "sd of head [m]", result.head_sd_m, numpy.sd);
  return numpy.seconds > 0 ? 0 : 1;
}

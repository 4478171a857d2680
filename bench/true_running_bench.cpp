// How long it takes to find which part of a pump is out: both chains of a full job (7 stations that turn, 6
// that stand), every assumption of none, one or two errors weighed, errors and shares of the parts with their
// covariances; beside NumPy doing the same assumptions, evidence and least squares.
//
// The shortest of many runs counts: everything else on the machine can only make a run longer. NumPy is given
// all assumptions of a chain as one batch; what is left of its time is its own work and the cost of its
// calls.
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <limits>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "engine/assembly/true_attribution.h"
#include "tests/support/synthetic_rotor.h"

namespace {

using namespace pumpwright;
using true_running::Fault;
using true_running::Rotating;
using true_running::Standing;

constexpr int repeats = 2000;
constexpr int numpy_repeats = 200;

template <class Chain>
std::string written(const char* name, const std::vector<true_running::Station<Chain>>& stations) {
  const auto path = std::filesystem::temp_directory_path() / name;
  std::ofstream out(path, std::ios::binary);
  for (const auto& s : stations) {
    const std::array<double, 10> row{static_cast<double>(s.part),
                                     s.surface == true_running::Surface::face ? 1.0 : 0.0,
                                     s.at.value(),
                                     s.radius.value(),
                                     s.vector.toward_0.value(),
                                     s.vector.toward_90.value(),
                                     s.covariance[0],
                                     s.covariance[1],
                                     s.covariance[2],
                                     s.covariance[3]};
    for (const double v : row)
      out.write(reinterpret_cast<const char*>(&v), sizeof v);
  }
  return path.string();
}

struct NumPyRun {
  double seconds = 0, rotating = 0, standing = 0;
};

NumPyRun run_numpy(const std::string& rotating, const std::string& standing) {
  NumPyRun run;
  const std::string command = fmt::format("OPENBLAS_NUM_THREADS=1 {} '{}' '{}' '{}' {}", PUMPWRIGHT_PYTHON,
                                          PUMPWRIGHT_TRUE_REFERENCE, rotating, standing, numpy_repeats);
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return run;
  const int read = std::fscanf(pipe, "%lf %lf %lf", &run.seconds, &run.rotating, &run.standing);
  if (pclose(pipe) != 0 || read != 3) run.seconds = 0;
  return run;
}

}  // namespace

int main() {
  const testing::SyntheticShop shop{.more_stations = true};
  const auto rotating = testing::synthetic_case<Rotating>(1, {{Fault::sleeve_not_home, ""}}, shop);
  const auto standing = testing::synthetic_case<Standing>(2, {{Fault::bracket_off_centre, ""}}, shop);
  double best = std::numeric_limits<double>::infinity(), first = 0, second = 0;
  for (int i = 0; i < repeats; ++i) {
    const auto start = std::chrono::steady_clock::now();
    const auto a = true_running::attribute<Rotating>(rotating.stations, rotating.geometry);
    const auto b = true_running::attribute<Standing>(standing.stations, standing.geometry);
    best = std::min(best, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    first = a.best().probability;
    second = b.best().probability;
  }
  const auto file_1 = written("pumpwright-true-rotating.bin", rotating.stations);
  const auto file_2 = written("pumpwright-true-standing.bin", standing.stations);
  const NumPyRun numpy = run_numpy(file_1, file_2);
  std::filesystem::remove(file_1);
  std::filesystem::remove(file_2);

  fmt::print("both chains of a job, {} and {} stations, every assumption of at most two errors\n\n",
             rotating.stations.size(), standing.stations.size());
  fmt::print("{:<24} {:>9.1f} µs\n", "attribute", best * 1e6);
  if (numpy.seconds > 0)
    fmt::print("{:<24} {:>9.1f} µs  {:>6.1f} x\n", "NumPy, the same", numpy.seconds * 1e6,
               numpy.seconds / best);
  else
    fmt::print("NumPy could not be run\n");
  fmt::print("\n{:<24} {:>16} {:>16}\n", "probability of the best", "attribute", "NumPy");
  fmt::print("{:<24} {:>16.12f} {:>16.12f}\n", "turns", first, numpy.rotating);
  fmt::print("{:<24} {:>16.12f} {:>16.12f}\n", "stands", second, numpy.standing);
  return numpy.seconds > 0 ? 0 : 1;
}

// How long the rotor of an overhung pump takes, beside SciPy on the same matrices.
//
//   whole sheet      assess(): mesh, matrices, three bent lines, lives, modes, critical speeds
//   matrices         mesh and matrices alone
//   modes            all whirl modes at the running speed: this program's symmetric pencil, roots only;
//                    scipy.linalg.eig of the general pencil of the same size, vectors left out too
//   critical speeds  forward and backward; scipy.linalg.eig likewise
//
// The shortest of a few runs counts. SciPy gets the matrices ready-made, in one process; its time is without
// starting Python. Both are told to use one thread.
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

#include "engine/rotor/assessment.h"
#include "tests/support/given_rotor.h"

namespace {

using namespace pumpwright;

constexpr int repeats = 7;
constexpr double spin_rad_s = 371.755;

template <class Work>
double shortest_ms(Work work) {
  double best = std::numeric_limits<double>::infinity();
  for (int i = 0; i < repeats; ++i) {
    const auto start = std::chrono::steady_clock::now();
    work();
    best = std::min(
        best, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  }
  return best;
}

// Unknowns, then M, G and K row by row as raw doubles.
void write_matrices(const std::filesystem::path& path, const rotor::RotorMatrices& m) {
  std::ofstream out(path, std::ios::binary);
  const Eigen::MatrixXd mass = rotor::free_part(m, m.mass);
  const double unknowns = static_cast<double>(mass.rows());
  out.write(reinterpret_cast<const char*>(&unknowns), sizeof unknowns);
  for (const Eigen::MatrixXd& matrix :
       {mass, rotor::free_part(m, m.gyroscopic), rotor::free_part(m, m.stiffness)})
    out.write(reinterpret_cast<const char*>(matrix.data()),
              static_cast<std::streamsize>(sizeof(double)) * matrix.size());
}

struct SciPyRun {
  bool ran = false;
  double modes_ms = 0, critical_ms = 0;
  std::array<double, 4>
      result{};  // lowest forward and backward mode, first forward and backward critical speed
};

SciPyRun run_scipy(const std::filesystem::path& matrices) {
  SciPyRun run;
  const std::string command =
      fmt::format("OPENBLAS_NUM_THREADS=1 OMP_NUM_THREADS=1 {} '{}' '{}' {} {}", PUMPWRIGHT_PYTHON,
                  PUMPWRIGHT_ROTOR_REFERENCE, matrices.string(), spin_rad_s, repeats);
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return run;
  auto& r = run.result;
  const int read = std::fscanf(pipe, "%lf %lf %lf %lf %lf %lf", &run.modes_ms, &run.critical_ms, &r[0], &r[1],
                               &r[2], &r[3]);
  run.ran = pclose(pipe) == 0 && read == 6;
  return run;
}

double lowest(const std::vector<rotor::WhirlMode>& modes, bool forward) {
  for (const rotor::WhirlMode& mode : modes)
    if (mode.forward == forward) return mode.frequency.value();
  return 0;
}

}  // namespace

int main() {
  const rotor::RotorCase pump = testing::overhung_pump();
  const rotor::RotorMatrices m = rotor::rotor_matrices(pump.rotor);
  const Speed spin = radians_per_second(spin_rad_s);
  std::vector<rotor::WhirlMode> modes;
  rotor::CriticalSpeeds critical;
  const double sheet_ms = shortest_ms([&] { (void)rotor::assess(pump); });
  const double matrices_ms = shortest_ms([&] { (void)rotor::rotor_matrices(pump.rotor); });
  const double modes_ms = shortest_ms([&] { modes = rotor::whirl_modes(m, spin, 3); });
  const double critical_ms = shortest_ms([&] { critical = rotor::critical_speeds(m, 3); });
  const auto path = std::filesystem::temp_directory_path() / "pumpwright-rotor-bench.bin";
  write_matrices(path, m);
  const SciPyRun scipy = run_scipy(path);
  std::filesystem::remove(path);

  fmt::print("overhung pump rotor, {} elements, {} unknowns; shortest of {}\n\n", m.mesh.step.size(),
             m.free.size(), repeats);
  fmt::print("{:<18} {:>10.3f} ms\n{:<18} {:>10.3f} ms\n", "whole sheet", sheet_ms, "matrices", matrices_ms);
  fmt::print("{:<18} {:>10.3f} ms   scipy.linalg.eig {:>10.3f} ms\n", "modes", modes_ms, scipy.modes_ms);
  fmt::print("{:<18} {:>10.3f} ms   scipy.linalg.eig {:>10.3f} ms\n\n", "critical speeds", critical_ms,
             scipy.critical_ms);
  const auto compare = [](const char* name, double ours, double theirs) {
    fmt::print("{:<34} {:>18.12g} {:>18.12g} rad/s  ({:.1e})\n", name, ours, theirs, ours / theirs - 1);
  };
  compare("lowest mode, forward", lowest(modes, true), scipy.result[0]);
  compare("lowest mode, backward", lowest(modes, false), scipy.result[1]);
  compare("first critical speed, forward", critical.forward.at(0).value(), scipy.result[2]);
  compare("first critical speed, backward", critical.backward.at(0).value(), scipy.result[3]);
  return scipy.ran ? 0 : 1;
}

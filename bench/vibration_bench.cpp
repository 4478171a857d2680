// The spectrum of ten minutes at 51.2 kHz (30.72 million samples): Welch, Hann, stretches of 8192 overlapping
// by half, on one and two threads; beside scipy.signal.welch on the same samples.
//
// The shortest of a few runs counts. SciPy reads the samples first and is timed without that and without
// starting Python; its transforms run on one thread. What is printed of the results is the largest difference
// of a line, in parts of the strongest line.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "bench/shortest.h"
#include "engine/vibration/spectrum.h"
#include "tests/support/made_signal.h"
#include "tests/support/thread_executor.h"

namespace {

using namespace pumpwright;

constexpr double rate_hz = 51'200;
constexpr std::size_t samples = 30'720'000;
constexpr vibration::SpectrumSettings settings{.segment = 8192, .overlap = 4096};
constexpr int repeats = 5;

void write_doubles(const std::filesystem::path& path, const std::vector<double>& values) {
  std::ofstream out(path, std::ios::binary);
  out.write(reinterpret_cast<const char*>(values.data()),
            static_cast<std::streamsize>(values.size() * sizeof(double)));
}

std::vector<double> read_doubles(const std::filesystem::path& path, std::size_t count) {
  std::vector<double> out(count);
  std::ifstream in(path, std::ios::binary);
  in.read(reinterpret_cast<char*>(out.data()), static_cast<std::streamsize>(count * sizeof(double)));
  return out;
}

// Seconds of SciPy, whose density is left in `result`; 0 when it did not run.
double run_scipy(const std::filesystem::path& signal, const std::filesystem::path& result) {
  const std::string command =
      fmt::format("{} '{}' '{}' '{}' {} {} {} {}", PUMPWRIGHT_PYTHON, PUMPWRIGHT_VIBRATION_REFERENCE,
                  signal.string(), result.string(), rate_hz, settings.segment, settings.overlap, repeats);
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return 0;
  double seconds = 0;
  const int read = std::fscanf(pipe, "%lf", &seconds);
  return pclose(pipe) == 0 && read == 1 ? seconds : 0;
}

double largest_difference(const std::vector<double>& ours, const std::vector<double>& theirs) {
  double most = 0;
  for (std::size_t k = 0; k < ours.size(); ++k)
    most = std::max(most, std::fabs(ours[k] - theirs[k]));
  return most / *std::max_element(theirs.begin(), theirs.end());
}

}  // namespace

int main() {
  const auto signal = testing::made_signal({{48.7, 2, 0}, {292, 3, 1}}, rate_hz, samples, 1, 1);
  const auto rate = Frequency::from_value(rate_hz);
  vibration::Spectrum spectrum;
  const auto seconds_on = [&](std::size_t threads) {
    testing::ThreadExecutor executor(threads);
    return shortest_s(repeats, [&] { spectrum = vibration::welch(signal, rate, settings, executor); });
  };
  const double one_s = seconds_on(1), two_s = seconds_on(2);
  const auto folder = std::filesystem::temp_directory_path();
  const auto file = folder / "pumpwright-vibration-signal", result = folder / "pumpwright-vibration-density";
  write_doubles(file, signal);
  const double scipy_s = run_scipy(file, result);
  fmt::print("30.72e6 samples, segments of {}: {:.0f} ms on one thread, {:.0f} ms on two\n", settings.segment,
             one_s * 1e3, two_s * 1e3);
  if (scipy_s > 0)
    fmt::print("scipy.signal.welch: {:.0f} ms; {:.1f} and {:.1f} times as long; largest difference {:.1e}\n",
               scipy_s * 1e3, scipy_s / one_s, scipy_s / two_s,
               largest_difference(spectrum.density, read_doubles(result, spectrum.density.size())));
  std::filesystem::remove(file);
  std::filesystem::remove(result);
  return scipy_s > 0 ? 0 : 1;
}

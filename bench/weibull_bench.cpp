// How fast a Weibull curve is fitted to a million units, a third of them still out: estimates with
// covariance, then with all likelihood intervals of the command; beside R's survreg doing the first of the
// two.
//
// The shortest of a few runs counts: everything else on the machine can only make a run longer. Both start
// from times in memory; R's figure holds its model frame, which a user of R pays as well.
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <vector>

#include <fmt/format.h>

#include "bench/shortest.h"
#include "engine/reliability/weibull_limits.h"

namespace {

using namespace pumpwright;
using namespace pumpwright::reliability;

constexpr std::uint64_t count_of_units = 1'000'000;
constexpr int repeats = 5;

// As weibull_reference.R makes them.
std::vector<Life> made_lives() {
  std::vector<Life> lives;
  for (std::uint64_t i = 0; i < count_of_units; ++i) {
    const std::uint64_t place = i * 7919 % count_of_units;
    const double part = (static_cast<double>(place) + 0.5) / static_cast<double>(count_of_units);
    const double time = 8000 * std::pow(-std::log1p(-part), 1 / 1.8);
    const bool is_out = place % 3 == 0;
    lives.push_back({seconds(is_out ? 0.6 * time : time), is_out ? Ending::running : Ending::returned});
  }
  return lives;
}

struct RRun {
  double seconds = 0, shape = 0, scale = 0;
};

RRun run_r() {
  RRun run;
  const std::string command = fmt::format("{} --vanilla '{}' {} {}", PUMPWRIGHT_R,
                                          PUMPWRIGHT_WEIBULL_REFERENCE, count_of_units, repeats);
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return run;
  const int read = std::fscanf(pipe, "%lf %lf %lf", &run.seconds, &run.shape, &run.scale);
  if (pclose(pipe) != 0 || read != 3) run.seconds = 0;
  return run;
}

void row(const char* what, double seconds, double r_s) {
  fmt::print("{:<58} {:>9.1f} ms", what, seconds * 1e3);
  if (r_s > 0) fmt::print("  {:>6.1f} x R", r_s / seconds);
  fmt::print("\n");
}

}  // namespace

int main() {
  const auto lives = made_lives();
  std::optional<WeibullFit> fit;
  const double fit_s = shortest_s(repeats, [&] { fit = fit_weibull(WeibullData(lives)); });
  double used = 0;
  const double all_s = shortest_s(repeats, [&] {
    const WeibullData data(lives);
    fit = fit_weibull(data);
    used += shape_limits(data, *fit).high + scale_limits(data, *fit).high.value() +
            life_limits(data, *fit, 0.1).high.value();
  });
  const RRun r = run_r();
  fmt::print("{} units, a third still out; shortest of {}\n\n", count_of_units, repeats);
  row("shape, scale, covariance", fit_s, r.seconds);
  row("… and likelihood intervals of shape, scale and B10", all_s, 0);
  if (r.seconds > 0)
    row("R survreg: shape, scale, covariance", r.seconds, 0);
  else
    fmt::print("R could not be run\n");
  fmt::print("\n{:<8} {:>20} {:>20}\n", "", "here", "R");
  fmt::print("{:<8} {:>20.12g} {:>20.12g}\n", "shape", fit->shape, r.shape);
  fmt::print("{:<8} {:>20.12g} {:>20.12g}\n", "scale", fit->scale.value(), r.scale);
  return r.seconds > 0 && used > 0 ? 0 : 1;
}

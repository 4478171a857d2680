// How long a property of water takes, beside a plain loop of the same equations.
//
//   saturation_pressure      the public function: typed quantities, range check
//   saturation_plain         equation 30 of IAPWS-IF97 on bare doubles, no check, as a C program would have
//   it saturation_of_liquid     the same through the interface of a liquid, as the seal asks for it
//   saturation_temperature   the way back
//   density, viscosity,      of liquid water through that interface: region 1 is evaluated anew for each
//   heat_capacity, conductivity
// fluid_reference.py times the Python package iapws on the same saturation pressures. Single thread; every
// figure is for one value, taken over 1024 temperatures that the compiler does not know.
#include <cmath>
#include <random>
#include <vector>

#include <benchmark/benchmark.h>

#include "engine/fluid/saturation.h"
#include "engine/fluid/water.h"

namespace pumpwright {
namespace {

constexpr int count = 1024;

std::vector<double> temperatures_k() {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> between(280, 450);
  std::vector<double> values(count);
  for (double& t_k : values)
    t_k = between(random);
  return values;
}

void per_value(benchmark::State& state) {
  state.SetItemsProcessed(state.iterations() * count);
  state.counters["per_value"] =
      benchmark::Counter(count, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

template <class Property>
void over_temperatures(benchmark::State& state, Property property) {
  const auto temperatures = temperatures_k();
  for (auto _ : state) {
    double sum = 0;
    for (const double t_k : temperatures)
      sum += property(t_k);
    benchmark::DoNotOptimize(sum);
  }
  per_value(state);
}

double plain_saturation_pa(double t) {
  const double th = t - 0.23855557567849 / (t - 0.65017534844798e3);
  const double a = th * th + 0.11670521452767e4 * th - 0.72421316703206e6;
  const double b = -0.17073846940092e2 * th * th + 0.12020824702470e5 * th - 0.32325550322333e7;
  const double c = 0.14915108613530e2 * th * th - 0.48232657361591e4 * th + 0.40511340542057e6;
  const double q = 2 * c / (-b + std::sqrt(b * b - 4 * a * c));
  return 1e6 * q * q * q * q;
}

void saturation_plain(benchmark::State& state) {
  over_temperatures(state, plain_saturation_pa);
}

void saturation_pressure(benchmark::State& state) {
  over_temperatures(state,
                    [](double t_k) { return fluid::water_saturation_pressure(kelvin(t_k)).value.value(); });
}

void saturation_of_liquid(benchmark::State& state) {
  const auto water = fluid::water();
  over_temperatures(state, [&](double t_k) { return water->saturation_pressure(kelvin(t_k)).value.value(); });
}

void saturation_temperature(benchmark::State& state) {
  over_temperatures(state, [](double t_k) {
    return kelvin_of(fluid::water_saturation_temperature({pascals(1000 * (t_k - 270))}));
  });
}

constexpr AbsolutePressure under{pascals(2e6)};

void density(benchmark::State& state) {
  const auto water = fluid::water();
  over_temperatures(state, [&](double t_k) { return water->density(kelvin(t_k), under).value(); });
}

void viscosity(benchmark::State& state) {
  const auto water = fluid::water();
  over_temperatures(state, [&](double t_k) { return water->viscosity(kelvin(t_k), under).value(); });
}

void heat_capacity(benchmark::State& state) {
  const auto water = fluid::water();
  over_temperatures(state, [&](double t_k) { return water->heat_capacity(kelvin(t_k), under).value(); });
}

void conductivity(benchmark::State& state) {
  const auto water = fluid::water();
  over_temperatures(state, [&](double t_k) { return water->conductivity(kelvin(t_k), under).value(); });
}

BENCHMARK(saturation_plain);
BENCHMARK(saturation_pressure);
BENCHMARK(saturation_of_liquid);
BENCHMARK(saturation_temperature);
BENCHMARK(density);
BENCHMARK(viscosity);
BENCHMARK(heat_capacity);
BENCHMARK(conductivity);

}  // namespace
}  // namespace pumpwright

BENCHMARK_MAIN();

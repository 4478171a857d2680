// How long the film between two faces takes to solve, and the map of conditions that rests on it.
//
//   film            a full solve from nothing: tabulating the liquid, film, touch, heat, coning, the profile
//   film_tabulated  the same with the liquid tabulated before
//   conditions_map  200 x 200 conditions judged at the faces, one film of 24 cells each, and the least
//   suction
//                   pressure of every temperature; on so many threads
// The liquid's properties are given numbers and one exponential; a liquid of long correlations adds its own
// time to `film` (about two evaluations of each property for every 2 K of its range) and next to nothing to
// the others. film_reference.py times SciPy's collocation on the same seal.
#include <algorithm>
#include <cstddef>

#include <benchmark/benchmark.h>

#include "engine/seal/conditions_map.h"
#include "engine/seal/film.h"
#include "tests/support/given_liquid.h"
#include "tests/support/given_seal.h"
#include "tests/support/thread_executor.h"

namespace pumpwright {
namespace {

void film(benchmark::State& state) {
  const testing::ThinningLiquid liquid;
  const seal::FilmCase c = testing::given_film();
  const int cells = static_cast<int>(state.range(0));
  int iterations = 0;
  for (auto _ : state) {
    const seal::FilmSolution s = seal::solve_film(c, liquid, {cells, 200});
    benchmark::DoNotOptimize(s.leakage);
    iterations = s.converged ? s.iterations : -1;
  }
  state.counters["iterations"] = iterations;
}

void film_tabulated(benchmark::State& state) {
  const seal::FilmCase c = testing::given_film();
  const seal::FilmLiquid liquid(testing::ThinningLiquid(), c.chamber);
  const int cells = static_cast<int>(state.range(0));
  for (auto _ : state) {
    const seal::FilmSolution s = seal::solve_film(c, liquid, {cells, 200});
    benchmark::DoNotOptimize(s.leakage);
  }
}

void conditions_map(benchmark::State& state) {
  const testing::ThinningLiquid liquid;
  seal::MapRequest r;
  r.seal = testing::given_film();
  r.coldest = kelvin(283.15);
  r.hottest = kelvin(413.15);
  r.lowest = {pascals(-0.8e5)};
  r.highest = {pascals(6e5)};
  r.rise = pascals(2e5);
  r.share = 0.1;
  testing::ThreadExecutor executor(static_cast<std::size_t>(state.range(0)));
  double unsolved = 0;
  for (auto _ : state) {
    const auto columns = seal::ConditionsMap(liquid, r).all(executor);
    unsolved = 0;
    for (const seal::MapColumn& c : columns)
      unsolved += static_cast<double>(
          std::count(c.conditions.begin(), c.conditions.end(), seal::Condition::unsolved));
  }
  state.counters["unsolved"] = unsolved;
}

BENCHMARK(film)->Arg(64)->Arg(256)->Unit(benchmark::kMicrosecond);
BENCHMARK(film_tabulated)->Arg(24)->Arg(64)->Unit(benchmark::kMicrosecond);
BENCHMARK(conditions_map)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace pumpwright

BENCHMARK_MAIN();

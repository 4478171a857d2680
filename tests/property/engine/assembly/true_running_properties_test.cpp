// The attribution of runout on synthetic pumps with planted errors, and the remedies beside brute force.
#include <cmath>
#include <cstdlib>
#include <fstream>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/assembly/true_remedy.h"
#include "tests/property/engine/assembly/true_running_figures.h"
#include "tests/support/hold.h"

namespace pumpwright::testing {
namespace {

using namespace true_running;

std::string line(const char* what, const Count& c) {
  return fmt::format("| {} | {} | {:.1f} % | {:.1f} % | {:.1f} % |\n", what, c.cases, 100 * c.share_right(),
                     c.decided == 0 ? 0.0 : 100.0 * c.decided_wrong / c.decided, 100 * c.share_in_region());
}

// docs/true-running.md is made from this: PUMPWRIGHT_TRUE_FIGURES names the file to write.
void write_figures(const std::string& text) {
  const char* path = std::getenv("PUMPWRIGHT_TRUE_FIGURES");
  if (path == nullptr) return;
  std::ofstream(path, std::ios::app) << text;
}

TEST(TrueRunning, NamesTheRightCulpritInNineteenCasesOfTwenty) {
  const auto figures = single_faults(10'000, {});
  const Count all = figures.all();
  write_figures("One error planted, the plan's own stations:\n\n" + confusion_table(figures) +
                "\n| | cases | right | decided wrong | in 95 % region |\n|---|---|---|---|---|\n" +
                line("all", all));
  EXPECT_EQ(all.cases, 10'000);
  EXPECT_GE(all.share_right(), 0.95);
  EXPECT_NEAR(all.share_in_region(), 0.95, 0.02);
}

TEST(TrueRunning, NamesBothOfTwoInMostCases) {
  const auto plan = two_faults(2'000, {});
  SyntheticShop thorough;
  thorough.more_stations = true;
  const auto more = two_faults(2'000, thorough);
  write_figures(line("two anywhere, the plan's stations", plan.anywhere) +
                line("two in one chain, the plan's stations", plan.same_chain) +
                line("two anywhere, more stations", more.anywhere) +
                line("two in one chain, more stations", more.same_chain));
  EXPECT_GE(plan.anywhere.share_right(), 0.85);
  EXPECT_GE(more.anywhere.share_right(), 0.85);
}

TEST(TrueRunning, OtherFaultSizesAndOtherPartsThanBelieved) {
  const auto with = [](auto change) {
    SyntheticShop shop;
    change(shop);
    return single_faults(1'000, shop).all();
  };
  const Count small = with([](SyntheticShop& s) { s.ratio = 3; });
  const Count large = with([](SyntheticShop& s) { s.ratio = 10; });
  const Count better_parts = with([](SyntheticShop& s) {
    s.ordinary_offset_m /= 2;
    s.ordinary_tilt_rad /= 2;
  });
  const Count worse_parts = with([](SyntheticShop& s) {
    s.ordinary_offset_m *= 2;
    s.ordinary_tilt_rad *= 2;
  });
  write_figures(line("one, 3 times the noise", small) + line("one, 10 times the noise", large) +
                line("one, parts twice as good as believed", better_parts) +
                line("one, parts half as good as believed", worse_parts));
  EXPECT_GT(large.share_right(), small.share_right());
  EXPECT_GE(large.share_right(), 0.97);
}

// --- remedies beside brute force
// -----------------------------------------------------------------------------------

double within(int low, int high) {
  return *rc::gen::inRange(low, high);
}

ErrorBelief random_errors(std::size_t errors) {
  ErrorBelief b;
  b.mean.resize(2 * errors);
  b.covariance.resize(4 * errors * errors);
  for (std::size_t i = 0; i < 2 * errors; ++i)
    b.covariance[i * 2 * errors + i] = 1e-12;
  return b;
}

// Offsets within 100 µm, tilts within 2 mrad.
template <class Chain>
ErrorBelief random_errors_of() {
  const auto faults = faults_of(Chain{});
  auto b = random_errors(faults.size());
  for (std::size_t j = 0; j < b.mean.size(); ++j)
    b.mean[j] = faults[j / 2].tilt ? within(-2000, 2000) * 1e-6 : within(-100, 100) * 1e-6;
  return b;
}

template <class Chain>
double best_of(std::span<const Remedy<Chain>> list) {
  double best = list.front().worst;
  for (const auto& r : list)
    best = std::min(best, r.worst);
  return best;
}

TEST(TrueRunning, NoSettingOfSleeveAndImpellerBeatsTheRemedy) {
  hold(
      "the best of a fine grid is at most 1 % better",
      [] {
        const auto c = synthetic_case<Rotating>(1, {}, {.more_stations = true});
        auto stations = c.stations;
        for (auto& s : stations)
          s.limit = Tir{metres(within(20, 200) * 1e-6)};
        const auto errors = random_errors_of<Rotating>();
        const RotatingMoves moves{true, *rc::gen::inRange(1, 5)};
        const auto list = remedies(stations, c.geometry, errors, moves);
        double brute = std::numeric_limits<double>::infinity();
        for (int key = 0; key < moves.impeller_keyways; ++key) {
          brute = std::min(
              brute, worst_ratio<Rotating>(predict_with(stations, c.geometry, errors, moves, {key, {}})));
          for (int deg = 0; deg < 360; deg += 2)
            brute = std::min(brute, worst_ratio<Rotating>(predict_with(stations, c.geometry, errors, moves,
                                                                       RotatingSetting{key, degrees(deg)})));
        }
        RC_ASSERT(best_of<Rotating>(list) <= brute * 1.01);
      },
      60);
}

TEST(TrueRunning, NoSettingOfTheBracketBeatsTheRemedy) {
  hold(
      "the best of a grid is at most 1 % better",
      [] {
        const auto c = synthetic_case<Standing>(1, {}, {.more_stations = *rc::gen::arbitrary<bool>()});
        auto stations = c.stations;
        for (auto& s : stations)
          s.limit = Tir{metres(within(20, 200) * 1e-6)};
        const auto errors = random_errors_of<Standing>();
        const StandingMoves moves{metres(within(0, 100) * 1e-6),
                                  *rc::gen::inRange(1, 5),
                                  metres(0.15),
                                  degrees(30),
                                  {metres(25e-6), metres(50e-6)}};
        const auto list = remedies(stations, c.geometry, errors, moves);
        double brute = std::numeric_limits<double>::infinity();
        for (int hole = -1; hole < moves.bolt_holes; ++hole)
          for (int bolt = -1; bolt < moves.bolt_holes; ++bolt)
            for (const Length& t : moves.shims)
              for (int ring = 0; ring <= 6; ++ring)
                for (int deg = 0; deg < 360; deg += 20) {
                  StandingSetting s;
                  s.shift =
                      Offset<Standing>::from_si(std::polar(moves.room.value() * ring / 6, deg * pi / 180));
                  if (hole >= 0) s.holes = hole;
                  if (bolt >= 0) s.shim = Shim{t, {degrees(30 + 360.0 * bolt / moves.bolt_holes)}};
                  brute = std::min(
                      brute, worst_ratio<Standing>(predict_with(stations, c.geometry, errors, moves, s)));
                }
        RC_ASSERT(best_of<Standing>(list) <= brute * 1.01);
      },
      25);
}

}  // namespace
}  // namespace pumpwright::testing

#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include "engine/rotor/balance_key.h"
#include "engine/rotor/balance_removal.h"
#include "engine/rotor/balance_solution.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::rotor {
namespace {

using testing::expect_outside;
using testing::live_versions;
using testing::live_words;
using testing::Obtained;

struct Doubts {
  double amplitude_u = 0;
  double phase_u = 0;
};

// What live_balance.py reads, for data whose places and phases are in the common sense.
std::string arguments_of(const BalanceRuns& data, const Doubts& doubts) {
  std::string text = fmt::format("solve {} {} {} {} {}", doubts.amplitude_u, doubts.phase_u, data.runs.size(),
                                 data.sensors.size(), data.planes);
  for (const auto& run : data.runs) {
    for (std::size_t p = 0; p < data.planes; ++p) {
      const auto fitted = fitted_in(run, p, data.sense);
      text += fmt::format(" {} {}", std::abs(fitted), std::arg(fitted));
    }
    for (const auto& reading : run.readings)
      text += fmt::format(" {} {}", reading.amplitude, reading.phase.value());
  }
  return text;
}

void set_doubts(BalanceRuns& data, const Doubts& doubts) {
  for (auto& sensor : data.sensors)
    sensor = doubts.amplitude_u > 0
                 ? std::optional<ReadingDoubt>(ReadingDoubt{doubts.amplitude_u, radians(doubts.phase_u)})
                 : std::nullopt;
}

FittedWeight weight(std::size_t plane, double g_mm, double angle_deg) {
  return {plane, {kilogram_metres(g_mm * 1e-6), degrees(angle_deg)}, false};
}

VibrationVector at(double amplitude, double phase_deg) {
  return {amplitude, degrees(phase_deg)};
}

// Two planes, three sensors, trial weights kept and repeated; made up.
BalanceRuns many_runs() {
  BalanceRuns data;
  data.planes = 2;
  data.sensors.resize(3);
  data.runs = {
      {{}, {at(4.21, 63), at(2.95, 201), at(1.42, 118)}},
      {{weight(0, 900, 40)}, {at(5.83, 88), at(2.61, 228), at(1.94, 141)}},
      {{weight(0, 900, 40), weight(1, 700, 310)}, {at(6.02, 71), at(4.12, 243), at(2.25, 122)}},
      {{weight(1, 700, 310)}, {at(4.65, 44), at(4.06, 223), at(1.86, 98)}},
      {{weight(0, 905, 41)}, {at(5.79, 90), at(2.70, 226), at(1.90, 143)}},
      {{}, {at(4.30, 62), at(2.90, 203), at(1.40, 119)}},
      {{weight(0, 500, 200), weight(1, 400, 60)}, {at(2.24, 51), at(1.71, 195), at(0.87, 96)}},
  };
  return data;
}

void compare(const std::string& what, BalanceRuns data, const Doubts& doubts, int digits) {
  set_doubts(data, doubts);
  const auto solution = solve_balance(data, influence_of(data));
  const auto words = live_words(arguments_of(data, doubts));
  const std::size_t size = 2 * data.planes;
  ASSERT_EQ(words.size(), size + solution.covariance.size()) << what;
  const std::string source = live_versions() + ", least_squares and lstsq";
  for (std::size_t i = 0; i < size; ++i) {
    const auto value = solution.remaining[i / 2].value;
    expect_outside({what + fmt::format(", plane {}, {} part", i / 2 + 1, i % 2 == 0 ? "real" : "imaginary"),
                    source, Obtained::live, words[i], i % 2 == 0 ? value.real() : value.imag(), "kg·m",
                    digits});
  }
  for (std::size_t i = 0; i < solution.covariance.size(); i += size + 1)
    expect_outside({what + fmt::format(", variance {}", i / (size + 1) + 1), source + ", numerical Jacobian",
                    Obtained::live, words[size + i], solution.covariance[i], "kg²·m²", 5});
}

TEST(BalanceLiveReference, RepeatedRunsWeighedByTheirDoubt) {
  compare("two planes, three sensors, stated doubt", many_runs(), {0.05, 0.035}, 7);
}

TEST(BalanceLiveReference, RepeatedRunsWithoutAStatedDoubt) {
  compare("two planes, three sensors, scatter of the runs", many_runs(), {}, 7);
}

TEST(BalanceLiveReference, AStatedDoubtThatIsTooSmallGrows) {
  compare("two planes, three sensors, doubt too small", many_runs(), {0.005, 0.002}, 7);
}

TEST(BalanceLiveReference, JustEnoughRuns) {
  BalanceRuns data = many_runs();
  data.runs = {data.runs[0], data.runs[1], data.runs[3]};
  data.sensors.resize(2);
  for (auto& run : data.runs)
    run.readings.resize(2);
  compare("two planes, two sensors, three runs", data, {0.05, 0.035}, 7);
}

TEST(BalanceLiveReference, DrilledHoles) {
  Drill d;
  d.radius = metres(0.085);
  d.diameter = metres(0.008);
  d.density = kilograms_per_cubic_metre(7200);
  d.most_depth = metres(0.02);
  const std::string source = live_versions() + ", quad";
  const std::vector<double> depths_m{0.001, 0.0024, 0.0075, 0.02};
  for (const char* direction : {"axial", "radial"}) {
    d.direction = direction == std::string("axial") ? DrillDirection::axial : DrillDirection::radial;
    const auto words =
        live_words(fmt::format("drill {} {} {} {} {} {}", direction, d.radius.value(), d.diameter.value(),
                               d.point.value(), d.density.value(), fmt::join(depths_m, " ")));
    ASSERT_EQ(words.size(), depths_m.size());
    for (std::size_t i = 0; i < depths_m.size(); ++i)
      expect_outside({fmt::format("moment of a {} hole {} mm deep", direction, 1000 * depths_m[i]), source,
                      Obtained::live, words[i], drilled_out(d, metres(depths_m[i])).value(), "kg·m", 11});
  }
}

TEST(BalanceLiveReference, GroundPad) {
  const Grind g{metres(0.09), metres(0.12), metres(0.025), kilograms_per_cubic_metre(8800), metres(0.003)};
  const auto words = live_words(fmt::format("pad {} {} {} {} {}", g.radius.value(), g.length.value(),
                                            g.width.value(), g.density.value(), 0.0012));
  ASSERT_EQ(words.size(), 1U);
  const auto pad = pad_for(g, kilogram_metres(std::stod(words[0])));
  expect_outside({"depth of a ground pad", live_versions() + ", dblquad", Obtained::live, "1.2",
                  pad.depth.value() * 1000, "mm", 2});
  EXPECT_NEAR(pad.depth.value(), 0.0012, 1e-14);
}

TEST(BalanceLiveReference, KeyOfAnotherLength) {
  KeyFitted key;
  key.shaft_diameter = metres(0.038);
  key.section = key_for_shaft(key.shaft_diameter, KeySystem::metric);
  key.seat_length = metres(0.070);
  key.hub_length = metres(0.042);
  key.key_length = metres(0.060);
  key.density = kilograms_per_cubic_metre(7850);
  // 10 × 8, seat 5.0 deep: bottom 14, joint 19, top 22 mm from the axis.
  const auto words = live_words("key 7850 0.010 0.014 0.019 0.022 0.060 0.070 0.042");
  ASSERT_EQ(words.size(), 1U);
  const auto u = unbalance_of_key(key);
  expect_outside({"unbalance of a key shorter than its seat and longer than its hub",
                  live_versions() + ", quad", Obtained::live, words[0],
                  u.towards_key ? u.amount.value() : -u.amount.value(), "kg·m", 10});
}

}  // namespace
}  // namespace pumpwright::rotor

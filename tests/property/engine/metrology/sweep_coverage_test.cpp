// The stated 95 % region of the eccentricity vector holds the truth in 95 of 100 sweeps, not more and not
// fewer.
#include <cctype>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/metrology/sweep.h"

namespace pumpwright {
namespace {

constexpr int trials = 10000;

struct Case {
  std::string name;
  std::vector<double> places_deg;
  std::vector<double> amplitudes_m;  // of orders 1, 2, …
  double noise_m;
  bool instrument_stated;
};

std::vector<double> even(int count, int turns = 1) {
  std::vector<double> places;
  for (int i = 0; i < count * turns; ++i)
    places.push_back(360.0 * i / count);
  return places;
}

class SweepCoverage : public ::testing::TestWithParam<Case> {};

TEST_P(SweepCoverage, IsNinetyFivePercent) {
  const Case& c = GetParam();
  std::mt19937_64 random(20240229);
  std::normal_distribution<double> noise(0, c.noise_m);
  std::uniform_real_distribution<double> turn(0, 2 * pi);
  Instrument dial{.id = "dial", .graduation = metres(1e-9)};
  dial.repeatability = metres(c.noise_m);

  int covered = 0;
  for (int trial = 0; trial < trials; ++trial) {
    std::vector<double> crest;
    for (std::size_t k = 0; k < c.amplitudes_m.size(); ++k)
      crest.push_back(turn(random));
    std::vector<SweepReading> readings;
    for (const double place_deg : c.places_deg) {
      double sum_m = noise(random);
      for (std::size_t k = 0; k < crest.size(); ++k)
        sum_m +=
            c.amplitudes_m[k] * std::cos(static_cast<double>(k + 1) * degrees(place_deg).value() - crest[k]);
      readings.push_back({degrees(place_deg), metres(sum_m)});
    }
    const SweepResult r = evaluate_sweep(readings, {}, c.instrument_stated ? &dial : nullptr);
    ASSERT_TRUE(r.vector_uncertainty);
    const double a_m = c.amplitudes_m.empty() ? 0 : c.amplitudes_m[0] * std::cos(crest[0]);
    const double b_m = c.amplitudes_m.empty() ? 0 : c.amplitudes_m[0] * std::sin(crest[0]);
    covered += r.vector_uncertainty->contains(metres(a_m), metres(b_m), r.vector) ? 1 : 0;
    // High spot and region say the same thing about zero.
    ASSERT_EQ(r.high_spot.has_value(), !r.vector_uncertainty->contains(metres(0), metres(0), r.vector));
  }
  RecordProperty("covered", covered);
  EXPECT_GE(covered, trials * 93 / 100) << c.name;
  EXPECT_LE(covered, trials * 97 / 100) << c.name;
}

INSTANTIATE_TEST_SUITE_P(
    Samplings, SweepCoverage,
    ::testing::Values(
        Case{"four places, instrument", even(4), {30e-6}, 2e-6, true},
        Case{"three places, instrument", even(3), {30e-6}, 2e-6, true},
        Case{"four places, residuals only", even(4), {30e-6}, 2e-6, false},
        Case{"eight places", even(8), {30e-6, 6e-6}, 2e-6, false},
        Case{"twelve places", even(12), {30e-6, 6e-6, 3e-6}, 2e-6, false},
        Case{"twelve places, nothing but noise", even(12), {}, 2e-6, false},
        Case{"thirty-six places", even(36), {30e-6, 6e-6, 3e-6, 2e-6, 2e-6}, 2e-6, false},
        Case{"two turns of twelve", even(12, 2), {30e-6, 6e-6, 3e-6}, 2e-6, false},
        Case{"keyway gap", {30, 60, 90, 120, 150, 180, 210, 240, 270, 300, 330}, {30e-6, 6e-6}, 2e-6, false},
        Case{"uneven",
             {0, 20, 60, 100, 130, 170, 210, 225, 260, 290, 310, 340, 350},
             {30e-6, 6e-6, 3e-6},
             2e-6,
             false}),
    [](const ::testing::TestParamInfo<Case>& the) {
      std::string name;
      for (const char ch : the.param.name)
        name += std::isalnum(static_cast<unsigned char>(ch)) != 0 ? ch : '_';
      return name;
    });

}  // namespace
}  // namespace pumpwright

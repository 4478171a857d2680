#include "engine/vibration/overall.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"
#include "tests/support/made_signal.h"

namespace pumpwright::vibration {
namespace {

using testing::made_signal;

constexpr auto hz = [](double v) { return Frequency::from_value(v); };

TEST(OverallVelocity, OfAccelerationIsThatOfItsIntegral) {
  // 3 mm/s r.m.s. at 60 Hz and 4 mm/s at 200 Hz, as accelerations; 50 mm/s at 4 Hz lies outside the band.
  const auto peak = [](double mm_s, double f) {
    return mm_s / 1000 * std::sqrt(2.0) * 2 * std::numbers::pi * f;
  };
  const auto signal =
      made_signal({{60, peak(3, 60), 0}, {200, peak(4, 200), 1}, {4, peak(50, 4), 2}}, 8192, 1'048'576, 0, 1);
  SerialExecutor executor;
  const auto s = welch(signal, hz(8192), {.segment = 16384, .overlap = 8192}, executor);
  const auto v = overall_velocity(s, Measures::acceleration, {hz(10), hz(1000)});
  EXPECT_NEAR(v.rms.value(), 0.005, 1e-5);
  EXPECT_GT(v.u.value(), 0);
}

TEST(OverallVelocity, SlowShaftsAreReadFromTwoHertz) {
  EXPECT_EQ(usual_band(Speed::from_value(599 * std::numbers::pi / 30)).least.value(), 2);
  EXPECT_EQ(usual_band(Speed::from_value(601 * std::numbers::pi / 30)).least.value(), 10);
}

TEST(OverallVelocity, TheBandMustLieInTheSpectrum) {
  const auto signal = made_signal({}, 1500, 4096, 1, 1);
  SerialExecutor executor;
  const auto s = welch(signal, hz(1500), {.segment = 1024, .overlap = 512}, executor);
  EXPECT_THROW((void)overall_velocity(s, Measures::velocity, {hz(10), hz(1000)}), BadInput);
  EXPECT_THROW((void)overall_velocity(s, Measures::velocity, {hz(0), hz(700)}), BadInput);
  EXPECT_NO_THROW((void)overall_velocity(s, Measures::velocity, {hz(10), hz(750)}));
}

}  // namespace
}  // namespace pumpwright::vibration

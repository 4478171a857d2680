#include "engine/vibration/tone.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/made_signal.h"

namespace pumpwright::vibration {
namespace {

using testing::made_signal;

constexpr auto hz = [](double v) { return Frequency::from_value(v); };

Spectrum spectrum_of(const std::vector<double>& signal, double rate, Window window) {
  SerialExecutor executor;
  return welch(signal, hz(rate), {.segment = 4096, .overlap = 2048, .window = window}, executor);
}

// Wherever it lies between two lines (1.5625 Hz apart), in noise of its own strength over the whole band.
TEST(Tone, AmplitudeWithinOnePerCentWhereverItLies) {
  for (const Window window : {Window::hann, Window::flat_top})
    for (int i = 0; i < 8; ++i) {
      const double at = 147 + 0.2 * i;
      const auto signal = made_signal({{at, 1, 0.1 * i}}, 6400, 640'000, 0.7, 10 + static_cast<unsigned>(i));
      const auto s = spectrum_of(signal, 6400, window);
      const auto tone = tone_near(s, window, hz(147.5), hz(4));
      ASSERT_TRUE(tone);
      EXPECT_TRUE(tone->clear);
      EXPECT_NEAR(tone->rms, std::sqrt(0.5), 0.01 * std::sqrt(0.5)) << word_for(window) << " " << at;
      EXPECT_NEAR(tone->at.value(), at, 0.1);
      EXPECT_LT(tone->u, 0.01);
    }
}

TEST(Tone, NoiseAloneIsNotClear) {
  int clear = 0;
  for (unsigned seed = 0; seed < 50; ++seed) {
    const auto s = spectrum_of(made_signal({}, 6400, 320'000, 1, seed), 6400, Window::hann);
    clear += tone_near(s, Window::hann, hz(500), hz(2))->clear ? 1 : 0;
  }
  EXPECT_LE(clear, 1);
}

TEST(Tone, FindsTheClearOnesStrongestFirst) {
  const auto signal = made_signal({{49.3, 1, 0}, {98.6, 0.3, 1}, {345.1, 0.6, 2}}, 6400, 640'000, 0.5, 4);
  const auto s = spectrum_of(signal, 6400, Window::hann);
  const auto tones = clear_tones(s, Window::hann, hz(10), hz(1000), 10);
  ASSERT_GE(tones.size(), 3U);
  EXPECT_NEAR(tones[0].at.value(), 49.3, 0.1);
  EXPECT_NEAR(tones[1].at.value(), 345.1, 0.1);
  EXPECT_NEAR(tones[2].at.value(), 98.6, 0.1);
  for (std::size_t i = 3; i < tones.size(); ++i)
    EXPECT_LT(tones[i].rms, 0.05);  // one in some tens of thousands of lines of noise looks clear
}

TEST(Tone, BeyondTheSpectrumThereIsNone) {
  const auto s = spectrum_of(made_signal({}, 6400, 64'000, 1, 5), 6400, Window::hann);
  EXPECT_FALSE(tone_near(s, Window::hann, hz(3201), hz(1)));
  EXPECT_FALSE(tone_near(s, Window::hann, hz(0), hz(1)));
}

}  // namespace
}  // namespace pumpwright::vibration

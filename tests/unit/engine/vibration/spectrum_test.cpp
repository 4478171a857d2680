#include "engine/vibration/spectrum.h"

#include <cmath>
#include <limits>
#include <numeric>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"
#include "tests/support/made_signal.h"

namespace pumpwright::vibration {
namespace {

using testing::made_signal;

constexpr auto hz = [](double v) { return Frequency::from_value(v); };

// Runs the blocks in the other order.
class Backwards final : public Executor {
 public:
  void run(std::size_t count, const std::function<void(std::size_t)>& body) override {
    for (std::size_t i = count; i > 0; --i)
      body(i - 1);
  }
};

TEST(Welch, TheDensityAddsUpToThePower) {
  const auto signal = made_signal({{55.3, 2.0, 0.3}, {312.8, 0.7, 1}}, 2000, 200'000, 0.5, 1);
  SerialExecutor executor;
  const auto s = welch(signal, hz(2000), {.segment = 1024, .overlap = 512}, executor);
  const double power = std::accumulate(s.density.begin(), s.density.end(), 0.0) * s.line_spacing.value();
  EXPECT_NEAR(power, 2.0 * 2.0 / 2 + 0.7 * 0.7 / 2 + 0.25, 0.01);
  EXPECT_NEAR(s.noise_bandwidth, 1.5, 1e-12);  // of a Hann window
  EXPECT_EQ(s.segments, (200'000U - 512) / 512);
  // Hann, half overlapping: the known loss by 1 + 2/36.
  EXPECT_NEAR(s.averages / static_cast<double>(s.segments), 36.0 / 38, 1e-3);
}

TEST(Welch, SameBitsWhateverTheOrderOfBlocks) {
  const auto signal = made_signal({{40, 1, 0}}, 1000, 100'000, 1, 2);
  SerialExecutor forwards;
  Backwards backwards;
  EXPECT_EQ(welch(signal, hz(1000), {.segment = 256, .overlap = 128}, forwards).density,
            welch(signal, hz(1000), {.segment = 256, .overlap = 128}, backwards).density);
}

TEST(Welch, OneSegmentAndOddNumbersOfThem) {
  const auto signal = made_signal({{40, 1, 0}}, 1000, 3 * 64, 0, 3);
  SerialExecutor executor;
  for (std::size_t segments = 1; segments <= 3; ++segments) {
    const auto s = welch(std::span(signal).first(64 * segments), hz(1000),
                         {.segment = 64, .overlap = 0, .window = Window::rectangular}, executor);
    EXPECT_EQ(s.segments, segments);
    const double power = std::accumulate(s.density.begin(), s.density.end(), 0.0) * s.line_spacing.value();
    double squares = 0;
    for (std::size_t i = 0; i < segments; ++i) {
      const auto part = std::span(signal).subspan(64 * i, 64);
      const double mean = std::accumulate(part.begin(), part.end(), 0.0) / 64;
      for (const double x : part)
        squares += (x - mean) * (x - mean);
    }
    EXPECT_NEAR(power, squares / 64 / static_cast<double>(segments), 1e-12);  // Parseval
  }
}

TEST(Welch, RefusesWhatItCanNotDo) {
  std::vector<double> signal(1000, 1.0);
  SerialExecutor executor;
  const auto refused = [&](double rate, SpectrumSettings settings) {
    try {
      (void)welch(signal, hz(rate), settings, executor);
      return std::string("accepted");
    } catch (const BadInput& e) {
      return e.what_was_wrong().field;
    }
  };
  EXPECT_EQ(refused(0, {.segment = 64, .overlap = 0}), "rate");
  EXPECT_EQ(refused(100, {.segment = 63, .overlap = 0}), "segment");
  EXPECT_EQ(refused(100, {.segment = 1024, .overlap = 0}), "segment");
  EXPECT_EQ(refused(100, {.segment = 64, .overlap = 64}), "overlap");
  signal[7] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refused(100, {.segment = 64, .overlap = 0}), "samples");
}

}  // namespace
}  // namespace pumpwright::vibration

// Signals made for tests: tones of known amplitude in noise, from a seed.
#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <vector>

namespace pumpwright::testing {

struct MadeTone {
  double hz = 0;
  double peak = 0;
  double phase = 0;
};

inline std::vector<double> made_signal(const std::vector<MadeTone>& tones, double rate_hz, std::size_t count,
                                       double noise_sd, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> noise(0, 1);
  std::vector<double> out(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double t = static_cast<double>(i) / rate_hz;
    out[i] = noise_sd * noise(random);
    for (const auto& tone : tones)
      out[i] += tone.peak * std::cos(2 * std::numbers::pi * tone.hz * t + tone.phase);
  }
  return out;
}

}  // namespace pumpwright::testing

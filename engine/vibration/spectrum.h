// The spectrum of a recorded signal: power density over frequency, averaged over windowed, overlapping
// stretches.
//
// P. D. Welch, The use of fast Fourier transform for the estimation of power spectra, IEEE Trans. Audio
// Electroacoust. 15, 1967; the conventions of scipy.signal.welch (one-sided, density), beside which it is
// checked to 1e-10.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "engine/executor.h"
#include "engine/quantity/quantity.h"
#include "engine/vibration/window.h"

namespace pumpwright::vibration {

struct SpectrumSettings {
  std::size_t segment = 8192;  // samples in a stretch, a power of two
  std::size_t overlap = 4096;  // samples two stretches share, less than a segment
  Window window = Window::hann;
  bool remove_mean = true;  // of each stretch
};

struct Spectrum {
  Frequency line_spacing;       // rate / segment
  std::vector<double> density;  // [unit²/Hz] at 0, 1, … segment/2 spacings
  std::size_t segments = 0;     // stretches averaged
  double noise_bandwidth = 1;   // of the window, in spacings
  // Stretches that do not overlap and would scatter as much.
  double averages = 1;

  double frequency_hz(std::size_t line) const { return line_spacing.value() * static_cast<double>(line); }
  // The line nearest to a frequency; the last one at most.
  std::size_t line_at(Frequency frequency) const;
};

// `samples` in any unit. Blocks of stretches go to `executor` and are added in order: the same bits for every
// one. BadInput "segment" as LaneFft or when the signal is shorter than one; "overlap"; "rate" unless over 0;
// "samples" when one is not finite.
Spectrum welch(std::span<const double> samples, Frequency rate, const SpectrumSettings& settings,
               Executor& executor);

}  // namespace pumpwright::vibration

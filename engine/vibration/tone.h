// Tones in a spectrum: how strong, at what frequency, and whether they stand out of the noise round them.
//
// A tone's power is spread over the window's main lobe, wherever the tone lies between two lines; it is added
// up over the lobe and the noise taken off, so that the amplitude does not hang on the place and a speed that
// wanders a little costs nothing. Noise: the median of the lines beside, turned into a mean by Wilson and
// Hilferty's approximation of a chi-squared median (1931, remembered).
#pragma once

#include <optional>
#include <vector>

#include "engine/vibration/spectrum.h"

namespace pumpwright::vibration {

struct Tone {
  Frequency at;        // centre of its power
  double rms = 0;      // in the signal's unit, 0 where the noise is stronger
  double u = 0;        // standard uncertainty of rms, from the scatter of noise
  bool clear = false;  // its power is over four times what noise alone scatters by (own choice)
};

// The strongest line within `search` of `expected`, as a tone. Nothing when the spectrum does not reach
// there.
std::optional<Tone> tone_near(const Spectrum& spectrum, Window window, Frequency expected, Frequency search);

// All clear tones from `least` to `most`, the strongest first, at most `count`; none within a lobe of a
// stronger one.
std::vector<Tone> clear_tones(const Spectrum& spectrum, Window window, Frequency least, Frequency most,
                              std::size_t count);

}  // namespace pumpwright::vibration

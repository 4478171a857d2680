#include "engine/vibration/tone.h"

#include <algorithm>
#include <cmath>

namespace pumpwright::vibration {
namespace {

constexpr std::size_t noise_lines = 40;  // to either side
constexpr double clear_over = 4;         // standard deviations of noise

// Half the lines over which a tone is added up: the window's main lobe and one line more.
std::size_t lobe_of(Window window) {
  switch (window) {
    case Window::hann:
      return 3;
    case Window::flat_top:
      return 6;
    case Window::rectangular:
      break;
  }
  return 10;  // its side lobes fall slowly
}

// Mean over median of powers averaged so many times.
double mean_over_median(double averages) {
  const double cube_root = 1 - 1 / (9 * averages);
  return 1 / (cube_root * cube_root * cube_root);
}

double noise_density(const Spectrum& s, std::size_t centre, std::size_t lobe) {
  std::vector<double> beside;
  beside.reserve(2 * noise_lines);
  for (std::size_t d = lobe + 1; d <= lobe + noise_lines; ++d) {
    if (centre >= d + 1) beside.push_back(s.density[centre - d]);  // never the mean's own line
    if (centre + d < s.density.size()) beside.push_back(s.density[centre + d]);
  }
  if (beside.empty()) return 0;
  const auto middle = beside.begin() + static_cast<std::ptrdiff_t>(beside.size() / 2);
  std::nth_element(beside.begin(), middle, beside.end());
  return *middle * mean_over_median(std::max(1.0, s.averages));
}

Tone tone_at(const Spectrum& s, std::size_t centre, std::size_t lobe) {
  const std::size_t from = centre > lobe ? centre - lobe : 1;
  const std::size_t to = std::min(centre + lobe, s.density.size() - 1);
  const double spacing = s.line_spacing.value(), noise = noise_density(s, centre, lobe);
  double power = 0, moment = 0;
  for (std::size_t k = from; k <= to; ++k) {
    const double above = (s.density[k] - noise) * spacing;
    power += above;
    moment += above * s.frequency_hz(k);
  }
  const auto lines = static_cast<double>(to - from + 1);
  const double averages = std::max(1.0, s.averages);
  const double scatter = noise * spacing * std::sqrt(lines * s.noise_bandwidth / averages);
  Tone tone;
  tone.at = power > 0 ? Frequency::from_value(moment / power) : Frequency::from_value(s.frequency_hz(centre));
  tone.rms = std::sqrt(std::max(0.0, power));
  tone.clear = power > clear_over * scatter;
  // Noise adds to the tone's own vector, too: 2 P N of one line.
  const double beating = 2 * std::max(0.0, power) * noise * spacing * s.noise_bandwidth / averages;
  if (tone.rms > 0) tone.u = std::sqrt(scatter * scatter + beating) / (2 * tone.rms);
  return tone;
}

std::size_t strongest_line(const Spectrum& s, std::size_t from, std::size_t to) {
  const auto first = s.density.begin();
  return static_cast<std::size_t>(std::max_element(first + static_cast<std::ptrdiff_t>(from),
                                                   first + static_cast<std::ptrdiff_t>(to) + 1) -
                                  first);
}

bool is_peak(const Spectrum& s, std::size_t k) {
  return s.density[k] > s.density[k - 1] && s.density[k] >= s.density[k + 1];
}

}  // namespace

std::optional<Tone> tone_near(const Spectrum& s, Window window, Frequency expected, Frequency search) {
  const double last = s.frequency_hz(s.density.size() - 1);
  if (!(expected.value() > 0) || expected.value() > last) return std::nullopt;
  const double low = std::max(s.line_spacing.value(), expected.value() - search.value());
  const std::size_t from = std::max<std::size_t>(1, s.line_at(Frequency::from_value(low)));
  const std::size_t to = s.line_at(expected + search);
  return tone_at(s, strongest_line(s, from, std::max(from, to)), lobe_of(window));
}

std::vector<Tone> clear_tones(const Spectrum& s, Window window, Frequency least, Frequency most,
                              std::size_t count) {
  const std::size_t lobe = lobe_of(window);
  const std::size_t from = std::max<std::size_t>(1, s.line_at(least));
  const std::size_t to = std::min(s.line_at(most), s.density.size() - 2);
  std::vector<std::size_t> peaks;
  for (std::size_t k = from; k <= to; ++k)
    if (is_peak(s, k)) peaks.push_back(k);
  std::sort(peaks.begin(), peaks.end(),
            [&](std::size_t a, std::size_t b) { return s.density[a] > s.density[b]; });
  std::vector<Tone> out;
  std::vector<std::size_t> taken;
  for (const std::size_t k : peaks) {
    if (out.size() == count) break;
    const bool beside = std::any_of(taken.begin(), taken.end(),
                                    [&](std::size_t t) { return (k > t ? k - t : t - k) <= 2 * lobe; });
    if (beside) continue;
    const Tone tone = tone_at(s, k, lobe);
    if (!tone.clear) continue;
    taken.push_back(k);
    out.push_back(tone);
  }
  std::sort(out.begin(), out.end(), [](const Tone& a, const Tone& b) { return a.rms > b.rms; });
  return out;
}

}  // namespace pumpwright::vibration

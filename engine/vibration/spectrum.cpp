#include "engine/vibration/spectrum.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "engine/quantity/bad_input.h"
#include "engine/vibration/lane_fft.h"

namespace pumpwright::vibration {
namespace {

// Two stretches go through one complex transform, as its real and imaginary part: what is asked for is the
// sum of both powers, |A(k)|² + |B(k)|² = (|Z(k)|² + |Z(-k)|²)/2.
constexpr std::size_t per_transform = 2 * LaneFft::lanes;
constexpr std::size_t transforms_per_block = 8;

struct Stretches {
  std::span<const double> samples;
  std::size_t length = 0, hop = 0, count = 0;
  const std::vector<double>& window;
  bool remove_mean = true;
};

// What one block works with, and the powers it adds up.
struct Bench {
  explicit Bench(std::size_t length)
      : re(length * LaneFft::lanes), im(length * LaneFft::lanes), power(length / 2 + 1), silence(length) {}

  std::vector<double> re, im, power, silence;
};

double mean_of(const double* in, std::size_t length) {
  double sums[4] = {};  // side by side, so that one addition need not wait for the other
  std::size_t i = 0;
  for (; i + 4 <= length; i += 4)
    for (std::size_t l = 0; l < 4; ++l)
      sums[l] += in[i + l];
  double rest = 0;
  for (; i < length; ++i)
    rest += in[i];
  return (sums[0] + sums[1] + sums[2] + sums[3] + rest) / static_cast<double>(length);
}

// Every other stretch from `first` on, a lane each; beyond the last one, silence.
void load(const Stretches& s, std::size_t first, const LaneFft& fft, const std::vector<double>& silence,
          std::vector<double>& into) {
  constexpr std::size_t lanes = LaneFft::lanes;
  const double* in[lanes];
  double mean[lanes];
  for (std::size_t l = 0; l < lanes; ++l) {
    const std::size_t stretch = first + 2 * l;
    in[l] = stretch < s.count ? s.samples.data() + stretch * s.hop : silence.data();
    mean[l] = s.remove_mean ? mean_of(in[l], s.length) : 0;
  }
  for (std::size_t i = 0; i < s.length; ++i) {
    double* out = into.data() + fft.places()[i] * lanes;
    for (std::size_t l = 0; l < lanes; ++l)
      out[l] = (in[l][i] - mean[l]) * s.window[i];
  }
}

void add_powers(const Bench& bench, std::size_t length, std::vector<double>& power) {
  constexpr std::size_t lanes = LaneFft::lanes;
  for (std::size_t k = 0; k <= length / 2; ++k) {
    const double* re = bench.re.data() + k * lanes;
    const double* im = bench.im.data() + k * lanes;
    const std::size_t mirror = k == 0 ? 0 : (length - k) * lanes;
    const double* mirror_re = bench.re.data() + mirror;
    const double* mirror_im = bench.im.data() + mirror;
    double sum = 0;
    for (std::size_t l = 0; l < lanes; ++l)
      sum += re[l] * re[l] + im[l] * im[l] + mirror_re[l] * mirror_re[l] + mirror_im[l] * mirror_im[l];
    power[k] += sum / 2;
  }
}

std::vector<double> block_powers(const Stretches& s, const LaneFft& fft, std::size_t block) {
  Bench bench(s.length);
  for (std::size_t t = 0; t < transforms_per_block; ++t) {
    const std::size_t first = (block * transforms_per_block + t) * per_transform;
    if (first >= s.count) break;
    load(s, first, fft, bench.silence, bench.re);
    load(s, first + 1, fft, bench.silence, bench.im);
    fft.transform(bench.re, bench.im);
    add_powers(bench, s.length, bench.power);
  }
  return std::move(bench.power);
}

double sum_of_products(const std::vector<double>& window, std::size_t shift) {
  double sum = 0;
  for (std::size_t i = 0; i + shift < window.size(); ++i)
    sum += window[i] * window[i + shift];
  return sum;
}

// Welch 1967: overlapping stretches scatter together by the square of the windows' correlation.
double independent_averages(const std::vector<double>& window, std::size_t hop, std::size_t count) {
  const double whole = sum_of_products(window, 0);
  const auto n = static_cast<double>(count);
  double shared = 1;
  for (std::size_t j = 1; j < count && j * hop < window.size(); ++j) {
    const double r = sum_of_products(window, j * hop) / whole;
    shared += 2 * (1 - static_cast<double>(j) / n) * r * r;
  }
  return n / shared;
}

void require(bool well, const char* field, const std::string& value, const char* expected) {
  if (!well) throw BadInput({field, "", value, expected});
}

void require_usable(std::span<const double> samples, Frequency rate, const SpectrumSettings& settings) {
  require(rate.value() > 0 && std::isfinite(rate.value()), "rate", std::to_string(rate.value()),
          "a sampling rate over 0 Hz");
  require(settings.segment <= samples.size(), "segment", std::to_string(settings.segment),
          "a segment no longer than the signal");
  require(settings.overlap < settings.segment, "overlap", std::to_string(settings.overlap),
          "an overlap shorter than the segment");
  const auto bad = std::find_if(samples.begin(), samples.end(), [](double x) { return !std::isfinite(x); });
  require(bad == samples.end(), "samples", "not a finite number", "finite samples");
}

}  // namespace

std::size_t Spectrum::line_at(Frequency frequency) const {
  const double line = std::round(frequency.value() / line_spacing.value());
  return static_cast<std::size_t>(std::clamp(line, 0.0, static_cast<double>(density.size() - 1)));
}

Spectrum welch(std::span<const double> samples, Frequency rate, const SpectrumSettings& settings,
               Executor& executor) {
  const LaneFft fft(settings.segment);
  require_usable(samples, rate, settings);
  const std::vector<double> window = window_values(settings.window, settings.segment);
  const std::size_t hop = settings.segment - settings.overlap;
  const Stretches stretches{samples, settings.segment,    hop, (samples.size() - settings.overlap) / hop,
                            window,  settings.remove_mean};
  const std::size_t per_block = per_transform * transforms_per_block;
  std::vector<std::vector<double>> blocks((stretches.count + per_block - 1) / per_block);
  executor.run(blocks.size(), [&](std::size_t b) { blocks[b] = block_powers(stretches, fft, b); });

  Spectrum out;
  out.line_spacing = rate / static_cast<double>(settings.segment);
  out.segments = stretches.count;
  out.averages = independent_averages(window, hop, stretches.count);
  const double squares = sum_of_products(window, 0);
  const double sum = std::accumulate(window.begin(), window.end(), 0.0);
  out.noise_bandwidth = static_cast<double>(settings.segment) * squares / (sum * sum);
  out.density.resize(settings.segment / 2 + 1);
  for (const auto& block : blocks)
    for (std::size_t k = 0; k < out.density.size(); ++k)
      out.density[k] += block[k];
  const double scale = 1 / (rate.value() * squares * static_cast<double>(stretches.count));
  for (std::size_t k = 0; k < out.density.size(); ++k)
    out.density[k] *= k == 0 || k + 1 == out.density.size() ? scale : 2 * scale;
  return out;
}

}  // namespace pumpwright::vibration

#include "engine/assembly/random_stream.h"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cmath>
#include <cstring>
#include <numbers>

#include "engine/assembly/vector_loop.h"

namespace pumpwright {
namespace {

constexpr std::size_t lanes = 8;
constexpr std::size_t lanes_per_vector = 4;
constexpr std::size_t vectors = lanes / lanes_per_vector;
using Lanes = std::array<std::uint64_t, lanes>;
using Words = std::uint64_t __attribute__((vector_size(lanes_per_vector * sizeof(std::uint64_t))));
using Buffer = std::array<std::uint64_t, RandomStream::max_fill>;

// SplitMix64's output function: every bit of the input changes half the bits of the result.
std::uint64_t mixed(std::uint64_t z) {
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

// Advances all lanes `steps` times; out takes lanes * steps words.
PUMPWRIGHT_VECTOR_LOOP
void advance(std::array<Lanes, 4>& state, std::uint64_t* out, std::size_t steps) {
  Words s[4][vectors];
  static_assert(sizeof s == sizeof state);
  std::memcpy(s, state.data(), sizeof s);
  for (std::size_t i = 0; i < steps; ++i)
    for (std::size_t v = 0; v < vectors; ++v) {
      const Words sum = s[0][v] + s[3][v];
      const Words word = ((sum << 23) | (sum >> 41)) + s[0][v];
      std::memcpy(out + i * lanes + v * lanes_per_vector, &word, sizeof word);
      const Words t = s[1][v] << 17;
      s[2][v] ^= s[0][v];
      s[3][v] ^= s[1][v];
      s[1][v] ^= s[2][v];
      s[0][v] ^= s[3][v];
      s[2][v] ^= t;
      s[3][v] = (s[3][v] << 45) | (s[3][v] >> 19);
    }
  std::memcpy(state.data(), s, sizeof s);
}

// The upper 52 bits become the fraction of a number in [1, 2).
inline double unit_interval(std::uint64_t word) {
  return std::bit_cast<double>((word >> 12) | 0x3ff0000000000000ULL) - 1.0;
}

PUMPWRIGHT_VECTOR_LOOP
void to_uniform(const std::uint64_t* words, double* out, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i)
    out[i] = unit_interval(words[i]);
}

PUMPWRIGHT_VECTOR_LOOP
void scale_and_shift(double* values, std::size_t count, double factor, double offset) {
  for (std::size_t i = 0; i < count; ++i)
    values[i] = offset + factor * values[i];
}

// Layers of equal area under exp(-x^2/2), x >= 0. Layer 0 is the bottom one with the tail beyond
// `tail_start`.
class Ziggurat {
 public:
  static constexpr std::size_t layers = 256;
  static constexpr double tail_start = 3.6541528853610088;

  struct Layer {
    double width_per_step;  // right edge over 2^53
    double inner_edge;      // below it the layer lies wholly under the curve
  };

  Ziggurat() {
    const double layer_area = tail_start * height(tail_start) +
                              std::sqrt(std::numbers::pi / 2) * std::erfc(tail_start / std::numbers::sqrt2);
    std::array<double, layers + 1> edge{};
    edge[0] = layer_area / height(tail_start);
    edge[1] = tail_start;
    for (std::size_t i = 2; i < layers; ++i)
      edge[i] = std::sqrt(-2 * std::log(layer_area / edge[i - 1] + height(edge[i - 1])));
    for (std::size_t i = 0; i < layers; ++i) {
      layer[i] = {edge[i] * 0x1p-53, edge[i + 1]};
      top[i] = height(edge[i + 1]);
      bottom[i] = height(edge[i]);
    }
  }

  static double height(double x) { return std::exp(-0.5 * x * x); }

  std::array<Layer, layers> layer{};
  std::array<double, layers> top{};
  std::array<double, layers> bottom{};
};

const Ziggurat& ziggurat() {
  static const Ziggurat the;
  return the;
}

// Low 8 bits: the layer. Upper 54 bits, made odd: a signed step, symmetric about zero and never zero.
std::size_t layer_index(std::uint64_t word) {
  return word & 0xff;
}
double signed_step(std::uint64_t word) {
  return static_cast<double>((static_cast<std::int64_t>(word) >> 10) | 1);
}

}  // namespace

RandomStream::RandomStream(std::uint64_t seed, std::uint64_t block) {
  std::uint64_t at = mixed(mixed(seed) + block);
  for (std::size_t lane = 0; lane < lanes; ++lane)
    for (auto& part : state_)
      part[lane] = mixed(at += 0x9e3779b97f4a7c15ULL);
}

void RandomStream::fill_words(std::span<std::uint64_t> out) {
  assert(out.size() <= max_fill);
  const std::size_t whole = out.size() / lanes;
  advance(state_, out.data(), whole);
  for (std::uint64_t& rest : out.subspan(whole * lanes))
    rest = word();
}

std::uint64_t RandomStream::word() {
  if (spare_left_ == 0) {
    advance(state_, spare_.data(), 1);
    spare_left_ = lanes;
  }
  return spare_[--spare_left_];
}

double RandomStream::open_uniform() {
  return unit_interval(word()) + 0x1p-53;
}

void RandomStream::fill_uniform(std::span<double> out) {
  Buffer words;
  fill_words(std::span(words).first(out.size()));
  to_uniform(words.data(), out.data(), out.size());
}

void RandomStream::fill_normal(std::span<double> out) {
  const Ziggurat& z = ziggurat();
  Buffer words;
  fill_words(std::span(words).first(out.size()));
  for (std::size_t i = 0; i < out.size(); ++i) {
    const Ziggurat::Layer& layer = z.layer[layer_index(words[i])];
    out[i] = signed_step(words[i]) * layer.width_per_step;
    if (std::fabs(out[i]) >= layer.inner_edge) [[unlikely]]
      out[i] = normal_outside_the_fast_layers(words[i]);
  }
}

// `drawn` fell outside the part of its layer that lies wholly under the curve: decide there, or draw again.
double RandomStream::normal_outside_the_fast_layers(std::uint64_t drawn) {
  const Ziggurat& z = ziggurat();
  for (;; drawn = word()) {
    const std::size_t i = layer_index(drawn);
    const double x = signed_step(drawn) * z.layer[i].width_per_step;
    if (std::fabs(x) < z.layer[i].inner_edge) return x;
    if (i == 0) return std::copysign(normal_tail(), x);
    const double y = z.bottom[i] + open_uniform() * (z.top[i] - z.bottom[i]);
    if (y < Ziggurat::height(x)) return x;
  }
}

// Marsaglia's exact method for the normal beyond `tail_start`.
double RandomStream::normal_tail() {
  constexpr double r = Ziggurat::tail_start;
  for (;;) {
    const double x = -std::log(open_uniform()) / r;
    const double y = -std::log(open_uniform());
    if (2 * y > x * x) return r + x;
  }
}

void RandomStream::fill(const Distribution& distribution, std::span<double> out) {
  std::visit([&](const auto& d) { fill_with(d, out); }, distribution);
}

void RandomStream::fill_with(const Normal& d, std::span<double> out) {
  fill_normal(out);
  scale_and_shift(out.data(), out.size(), d.sd, d.mean);
}

void RandomStream::fill_with(const Rectangular& d, std::span<double> out) {
  fill_uniform(out);
  scale_and_shift(out.data(), out.size(), d.upper - d.lower, d.lower);
}

void RandomStream::fill_with(const Triangular& d, std::span<double> out) {
  fill_with(Trapezoidal{d.lower, d.upper, 0}, out);
}

// JCGM 101:2008, 6.4.4.4.
void RandomStream::fill_with(const Trapezoidal& d, std::span<double> out) {
  std::array<double, max_fill> second;
  fill_uniform(out);
  fill_uniform(std::span(second).first(out.size()));
  const double half = (d.upper - d.lower) / 2;
  for (std::size_t i = 0; i < out.size(); ++i)
    out[i] = d.lower + half * ((1 + d.top_ratio) * out[i] + (1 - d.top_ratio) * second[i]);
}

// JCGM 101:2008, 6.4.6.3.
void RandomStream::fill_with(const Arcsine& d, std::span<double> out) {
  fill_uniform(out);
  const double half = (d.upper - d.lower) / 2;
  for (double& value : out)
    value = d.lower + half + half * std::sin(2 * std::numbers::pi * value);
}

// JCGM 101:2008, 6.4.3.4.
void RandomStream::fill_with(const CurvilinearTrapezoid& d, std::span<double> out) {
  std::array<double, max_fill> second;
  fill_uniform(out);
  fill_uniform(std::span(second).first(out.size()));
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double lower = d.lower - d.inexactness + 2 * d.inexactness * out[i];
    const double upper = d.lower + d.upper - lower;
    out[i] = lower + (upper - lower) * second[i];
  }
}

// Bailey, "Polar generation of random variates with the t-distribution", Math. Comp. 62 (1994), 779.
void RandomStream::fill_with(const StudentT& t, std::span<double> out) {
  for (double& value : out) {
    double u = 0;
    double w = 0;
    do {
      u = 2 * open_uniform() - 1;
      const double v = 2 * open_uniform() - 1;
      w = u * u + v * v;
    } while (w > 1 || w == 0);
    value = t.centre + t.scale * u * std::sqrt(t.dof * (std::pow(w, -2 / t.dof) - 1) / w);
  }
}

}  // namespace pumpwright

// Random numbers for Monte Carlo: fast, reproducible, and cut into blocks that can be made in any order.
//
// A stream belongs to one (seed, block) pair and always gives the same numbers, whichever thread asks and
// whatever was drawn before from other blocks. Inside, eight xoshiro256++ generators (Blackman and Vigna,
// "Scrambled linear pseudorandom number generators", ACM Trans. Math. Softw. 47(4), 2021) run side by side so
// that the compiler can use vector registers; SplitMix64 spreads (seed, block) over their states. The start
// states are in effect random points of a period of 2^256 - 1, so that overlap is out of the question
// (probability below 1e-50 for all the numbers a machine can draw in a year).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>

#include "engine/assembly/distribution.h"

namespace pumpwright {

class RandomStream {
 public:
  RandomStream(std::uint64_t seed, std::uint64_t block);

  // Most values one fill call may ask for.
  static constexpr std::size_t max_fill = 1024;

  // Raw 64-bit words. out.size() <= max_fill.
  void fill_words(std::span<std::uint64_t> out);

  // Uniform in [0, 1), multiples of 2^-52. out.size() <= max_fill.
  void fill_uniform(std::span<double> out);

  // Standard normal by the ziggurat method (Marsaglia and Tsang, "The ziggurat method for generating random
  // variables", J. Stat. Softw. 5(8), 2000; 256 layers, all 53 bits of the fraction used so that layer and
  // fraction are independent, and an exact tail). out.size() <= max_fill.
  void fill_normal(std::span<double> out);

  // Values of any distribution. out.size() <= max_fill. The distribution must be valid.
  void fill(const Distribution& distribution, std::span<double> out);

  // One raw word, for methods that reject; taken from a buffer of fill_words.
  std::uint64_t word();

  // One value of (0, 1), never 0: safe under a logarithm.
  double open_uniform();

 private:
  static constexpr std::size_t lanes = 8;

  double normal_outside_the_fast_layers(std::uint64_t drawn);
  double normal_tail();
  void fill_with(const Normal& d, std::span<double> out);
  void fill_with(const Rectangular& d, std::span<double> out);
  void fill_with(const Triangular& d, std::span<double> out);
  void fill_with(const Trapezoidal& d, std::span<double> out);
  void fill_with(const Arcsine& d, std::span<double> out);
  void fill_with(const CurvilinearTrapezoid& d, std::span<double> out);
  void fill_with(const StudentT& d, std::span<double> out);

  std::array<std::array<std::uint64_t, lanes>, 4> state_{};
  std::array<std::uint64_t, lanes> spare_{};
  std::size_t spare_left_ = 0;
};

}  // namespace pumpwright

#include "engine/assembly/random_stream.h"

#include <algorithm>
#include <array>
#include <set>
#include <vector>

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

std::vector<double> drawn(const Distribution& distribution, std::size_t count) {
  std::vector<double> values(count);
  RandomStream stream(7, 3);
  for (std::size_t at = 0; at < count; at += RandomStream::max_fill)
    stream.fill(distribution, std::span(values).subspan(at, std::min(RandomStream::max_fill, count - at)));
  return values;
}

TEST(RandomStream, SameSeedAndBlockGiveTheSameNumbers) {
  std::array<double, 100> a;
  std::array<double, 100> b;
  RandomStream(5, 9).fill_normal(a);
  RandomStream(5, 9).fill_normal(b);
  EXPECT_EQ(a, b);
}

TEST(RandomStream, EveryBlockAndSeedStartsElsewhere) {
  std::set<std::uint64_t> firsts;
  for (std::uint64_t seed = 0; seed < 40; ++seed)
    for (std::uint64_t block = 0; block < 250; ++block)
      firsts.insert(RandomStream(seed, block).word());
  EXPECT_EQ(firsts.size(), 10'000U);
}

// The generator of lane 0, written out as its authors define it.
TEST(RandomStream, LanesAreTheGeneratorTheyClaimToBe) {
  const auto mixed = [](std::uint64_t z) {
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
  };
  std::uint64_t at = mixed(mixed(42) + 17);
  std::array<std::uint64_t, 4> s;
  for (auto& part : s)
    part = mixed(at += 0x9e3779b97f4a7c15ULL);
  const auto rotl = [](std::uint64_t x, int k) { return (x << k) | (x >> (64 - k)); };
  const auto next = [&] {
    const std::uint64_t result = rotl(s[0] + s[3], 23) + s[0];
    const std::uint64_t t = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotl(s[3], 45);
    return result;
  };
  std::array<std::uint64_t, 800> words;
  RandomStream(42, 17).fill_words(words);
  for (std::size_t i = 0; i < words.size(); i += 8)
    EXPECT_EQ(words[i], next());
}

TEST(RandomStream, AFillOfOddLengthLosesAndRepeatsNothing) {
  std::array<std::uint64_t, 27> words;
  RandomStream stream(1, 1);
  stream.fill_words(words);
  std::set<std::uint64_t> seen(words.begin(), words.end());
  EXPECT_EQ(seen.size(), words.size());
  EXPECT_FALSE(seen.contains(stream.word()));
}

TEST(RandomStream, BoundedDistributionsStayInBounds) {
  const std::array<Distribution, 5> bounded{Rectangular{-2, 5}, Triangular{-2, 5}, Trapezoidal{-2, 5, 0.3},
                                            Arcsine{-2, 5}, CurvilinearTrapezoid{-1.5, 4.5, 0.5}};
  for (const Distribution& d : bounded) {
    const auto values = drawn(d, 50'000);
    const auto [low, high] = std::minmax_element(values.begin(), values.end());
    EXPECT_GE(*low, -2 - 1e-12);
    EXPECT_LE(*high, 5 + 1e-12);
    EXPECT_LT(*low, -1.8);
    EXPECT_GT(*high, 4.8);
  }
}

TEST(RandomStream, OpenUniformIsNeverZeroOrOne) {
  RandomStream stream(3, 4);
  for (int i = 0; i < 100'000; ++i) {
    const double u = stream.open_uniform();
    ASSERT_GT(u, 0);
    ASSERT_LT(u, 1);
  }
}

}  // namespace
}  // namespace pumpwright

#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <boost/math/distributions/chi_squared.hpp>
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/assembly/random_stream.h"
#include "tests/support/live_python.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

std::vector<double> drawn(const Distribution& distribution, std::size_t blocks, std::uint64_t seed) {
  std::vector<double> values(blocks * RandomStream::max_fill);
  for (std::size_t block = 0; block < blocks; ++block)
    RandomStream(seed, block)
        .fill(distribution,
              std::span(values).subspan(block * RandomStream::max_fill, RandomStream::max_fill));
  return values;
}

double central_probability(double z) {
  return std::erf(z / std::sqrt(2.0));
}

// p-value of counts against expectations.
double chi_square_p(const std::vector<double>& seen, const std::vector<double>& expected) {
  double sum = 0;
  for (std::size_t i = 0; i < seen.size(); ++i)
    sum += (seen[i] - expected[i]) * (seen[i] - expected[i]) / expected[i];
  const boost::math::chi_squared_distribution<double> chi(static_cast<double>(seen.size() - 1));
  return boost::math::cdf(boost::math::complement(chi, sum));
}

// Standard error of the mean of z^k is sqrt((m_2k - m_k^2) / n).
TEST(RandomReference, NormalMomentsAreExact) {
  const auto z = drawn(Normal{0, 1}, 8192, 5);
  const auto n = static_cast<double>(z.size());
  struct Moment {
    int order;
    double exact;
    double of_twice_the_order;
  };
  for (const Moment m : {Moment{1, 0, 1}, Moment{2, 1, 3}, Moment{3, 0, 15}, Moment{4, 3, 105},
                         Moment{6, 15, 10'395}, Moment{8, 105, 2'027'025}}) {
    double sum = 0;
    for (const double value : z)
      sum += std::pow(value, m.order);
    EXPECT_NEAR(sum / n, m.exact, 4 * std::sqrt((m.of_twice_the_order - m.exact * m.exact) / n))
        << "order " << m.order;
    if (m.exact != 0)
      expect_outside({fmt::format("normal sampler, moment {}, 8.4e6 values", m.order),
                      "standard normal moments (k - 1)!!", Obtained::closed_form,
                      fmt::format("{:.6f}", m.exact), sum / n, "", 1});
  }
}

// Equal-width bins of 0.05 to 4.5, both signs: wedges, every layer's edge and the tail's start are all
// crossed.
TEST(RandomReference, NormalHistogramPassesChiSquare) {
  const auto z = drawn(Normal{0, 1}, 16'384, 6);
  constexpr std::size_t bins = 180;
  constexpr double width = 0.05;
  std::vector<double> seen(bins + 2);
  std::vector<double> expected(bins + 2);
  const double edge = static_cast<double>(bins) / 2 * width;
  for (const double value : z) {
    const double at = std::floor((value + edge) / width);
    const std::size_t bin = at < 0 ? 0 : std::min(static_cast<std::size_t>(at) + 1, bins + 1);
    ++seen[bin];
  }
  const auto below = [](double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); };
  const auto n = static_cast<double>(z.size());
  expected[0] = expected[bins + 1] = n * below(-edge);
  for (std::size_t i = 0; i < bins; ++i) {
    const double from = -edge + static_cast<double>(i) * width;
    expected[i + 1] = n * (below(from + width) - below(from));
  }
  EXPECT_GT(chi_square_p(seen, expected), 1e-4);
}

TEST(RandomReference, NormalTailHasItsShare) {
  const auto z = drawn(Normal{0, 1}, 16'384, 7);
  const auto n = static_cast<double>(z.size());
  for (const double start : {3.0, 3.6541528853610088, 4.0, 4.5}) {
    double beyond = 0;
    for (const double value : z)
      if (std::fabs(value) > start) ++beyond;
    const double p = 1 - central_probability(start);
    EXPECT_NEAR(beyond / n, p, 4.5 * std::sqrt(p / n)) << "beyond " << start;
  }
}

TEST(RandomReference, UniformBitsAndPairsAreEven) {
  std::vector<std::uint64_t> words(1024);
  std::array<double, 64> ones{};
  std::vector<double> pairs(256);
  constexpr int fills = 4096;
  RandomStream stream(8, 0);
  for (int fill = 0; fill < fills; ++fill) {
    stream.fill_words(words);
    for (std::size_t i = 0; i < words.size(); ++i) {
      for (std::size_t bit = 0; bit < 64; ++bit)
        ones[bit] += static_cast<double>((words[i] >> bit) & 1);
      if (i % 16 < 8) ++pairs[(words[i] >> 60) * 16 + (words[i + 8] >> 60)];  // a lane's word and its next
    }
  }
  const double n = 1024.0 * fills;
  for (const double count : ones)
    EXPECT_NEAR(count / n, 0.5, 5 * 0.5 / std::sqrt(n));
  EXPECT_GT(chi_square_p(pairs, std::vector<double>(256, n / 2 / 256)), 1e-4);
}

TEST(RandomReference, NeighbouringBlocksAreUncorrelated) {
  double sum = 0;
  constexpr int count = 4000;
  std::vector<double> a(256);
  std::vector<double> b(256);
  for (std::uint64_t block = 0; block < count; ++block) {
    RandomStream(9, block).fill_normal(a);
    RandomStream(9, block + 1).fill_normal(b);
    for (std::size_t i = 0; i < a.size(); ++i)
      sum += a[i] * b[i];
  }
  const double n = 256.0 * count;
  EXPECT_NEAR(sum / n, 0, 4.5 / std::sqrt(n));
}

// Kolmogorov-Smirnov against SciPy's distribution functions; a wrong sampler gives p = 0 at this size.
TEST(RandomReference, EverySamplerPassesKolmogorovSmirnovAgainstSciPy) {
  const std::vector<std::pair<std::string, Distribution>> cases{
      {"normal", Normal{1.5, 0.7}},
      {"rectangular", Rectangular{-2, 5}},
      {"triangular", Triangular{-2, 5}},
      {"trapezoidal", Trapezoidal{-2, 5, 0.3}},
      {"arcsine", Arcsine{-2, 5}},
      {"student_t", StudentT{1.5, 0.7, 5}},
      {"curvilinear_trapezoid", CurvilinearTrapezoid{-1.5, 4.5, 0.5}}};
  for (const auto& [name, distribution] : cases) {
    const SampleFile file(drawn(distribution, 200, 10));
    const auto p = live_words("ks " + name + " " + file.path());
    ASSERT_EQ(p.size(), 1U);
    EXPECT_GT(std::stod(p[0]), 1e-3) << name;
  }
  // The test can fail: the same samples against a distribution 2 % narrower.
  const SampleFile wider(drawn(Normal{1.5, 0.714}, 200, 10));
  EXPECT_LT(std::stod(live_words("ks normal " + wider.path())[0]), 1e-3);
}

TEST(RandomReference, VariancesAreThoseOfSciPy) {
  const std::vector<std::pair<std::string, Distribution>> cases{
      {"normal", Normal{1.5, 0.7}},      {"rectangular", Rectangular{-2, 5}},
      {"triangular", Triangular{-2, 5}}, {"trapezoidal", Trapezoidal{-2, 5, 0.3}},
      {"arcsine", Arcsine{-2, 5}},       {"student t", StudentT{1.5, 0.7, 5}}};
  const auto live = live_words("variances");
  ASSERT_EQ(live.size(), cases.size());
  const std::string source = "scipy.stats, " + live_versions();
  for (std::size_t i = 0; i < cases.size(); ++i)
    expect_outside({"variance, " + cases[i].first, source, Obtained::live, live[i],
                    *variance_of(cases[i].second), "", 10});
  expect_outside({"variance, curvilinear trapezoid", "JCGM 101:2008, 6.4.3: (b-a)^2/12 + d^2/9",
                  Obtained::remembered, "3.02777777777778",
                  *variance_of(CurvilinearTrapezoid{-1.5, 4.5, 0.5}), "", 12});
}

}  // namespace
}  // namespace pumpwright::testing

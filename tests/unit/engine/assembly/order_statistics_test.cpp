#include "engine/assembly/order_statistics.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

TEST(Bins, NeverFallWhileTheValueRises) {
  const Bins bins(-1, 3);
  std::size_t last = 0;
  for (double value = -2; value < 4; value += 0.0003) {
    const std::size_t bin = bins.of(value);
    EXPECT_GE(bin, last);
    last = bin;
  }
  EXPECT_EQ(bins.of(-1e300), 0U);
  EXPECT_EQ(bins.of(1e300), Bins::count - 1);
}

TEST(Bins, ARangeOfOneValueStillHasOrder) {
  const Bins bins(2, 2);
  EXPECT_EQ(bins.of(1), bins.of(2));
}

TEST(OrderStatistics, KeptSamplesGiveTheSortedValueAtEveryRank) {
  std::mt19937_64 random(1);
  std::normal_distribution<double> normal;
  std::vector<double> values(20'000);
  for (double& v : values)
    v = normal(random);
  const Bins bins(-2, 2);  // narrower than the values: the outer bins take part
  const std::vector<std::uint8_t> keep(Bins::count, 1);
  std::vector<BinnedSamples> parts(2, BinnedSamples(bins, keep));
  for (std::size_t at = 0; at < values.size(); at += 500)
    parts[at % 1000 == 0 ? 0 : 1].add(std::span(values).subspan(at, 500));

  const std::vector<std::uint64_t> ranks{0, 1, 27, 9999, 10'000, 19'972, 19'999};
  const auto places = places_of(ranks, parts);
  const auto found = values_at(places, parts, bins);
  std::sort(values.begin(), values.end());
  for (std::size_t i = 0; i < ranks.size(); ++i)
    EXPECT_EQ(found[i], values[ranks[i]]);
}

TEST(OrderStatistics, OnlyMarkedBinsAreKeptAndAllAreCounted) {
  const Bins bins(0, 1);
  std::vector<std::uint8_t> keep(Bins::count);
  keep[bins.of(0.5)] = 1;
  BinnedSamples samples(bins, keep);
  const std::vector<double> values{0.1, 0.5, 0.9, 0.5};
  samples.add(values);
  EXPECT_EQ(samples.kept().size(), 2U);
  std::uint64_t all = 0;
  for (const auto count : samples.counts())
    all += count;
  EXPECT_EQ(all, 4U);
}

TEST(OrderStatistics, PilotMarksBinsAroundTheWantedRanks) {
  std::vector<double> pilot(10'000);
  for (std::size_t i = 0; i < pilot.size(); ++i)
    pilot[i] = static_cast<double>(i) / 10'000;
  const Bins bins(0, 1);
  const std::vector<double> wanted{0.5, 0.0001};
  const auto keep = bins_to_keep(pilot, wanted, bins);
  EXPECT_EQ(keep[bins.of(0.5)], 1);
  EXPECT_EQ(keep[bins.of(0.48)], 1);  // 0.5 - 4 standard errors of the rank
  EXPECT_EQ(keep[bins.of(0.40)], 0);
  EXPECT_EQ(keep[0], 1);  // a rank this small may lie below all of the pilot
}

}  // namespace
}  // namespace pumpwright

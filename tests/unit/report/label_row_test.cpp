#include "report/label_row.h"

#include <algorithm>
#include <random>

#include <gtest/gtest.h>

namespace pumpwright::report {
namespace {

TEST(SpreadApart, LeavesPositionsThatAreFarEnoughWhereTheyAre) {
  EXPECT_EQ(spread_apart({0, 10, 30}, {5, 5, 0}), (std::vector<double>{0, 10, 30}));
}

TEST(SpreadApart, MovesTwoTooCloseEquallyFarApart) {
  const auto x = spread_apart({10, 12}, {8, 0});
  EXPECT_DOUBLE_EQ(x[0], 7);
  EXPECT_DOUBLE_EQ(x[1], 15);
}

TEST(PlaceLabels, NeverPutsOneNameOverAnother) {
  std::mt19937_64 random(20);
  std::uniform_real_distribution<double> where(0, 500), wide(10, 74);
  for (int round = 0; round < 300; ++round) {
    std::vector<LabelWish> wishes;
    for (int i = 0; i < 1 + round % 12; ++i)
      wishes.push_back({where(random), wide(random), 20});
    std::sort(wishes.begin(), wishes.end(), [](const auto& a, const auto& b) { return a.x < b.x; });
    const LabelRow row = place_labels(wishes, {0, 500});
    for (std::size_t i = 0; i < row.spots.size(); ++i)
      for (std::size_t j = i + 1; j < row.spots.size(); ++j) {
        if (row.spots[i].near_edge != row.spots[j].near_edge) continue;
        EXPECT_GE(row.spots[j].centre - row.spots[i].centre,
                  (row.spots[i].width + row.spots[j].width) / 2 + 6.9);
      }
  }
}

TEST(PlaceLabels, KeepsTheOrderAndTheLimitsWhenTheNamesFit) {
  const LabelRow row = place_labels({{5, 40, 20}, {6, 40, 20}, {499, 40, 20}}, {0, 500});
  EXPECT_GE(row.spots[0].centre - 20, 0);
  EXPECT_LT(row.spots[0].centre, row.spots[1].centre);
  EXPECT_LE(row.spots[2].centre + 20, 500);
}

TEST(PlaceLabels, HasNoHeightWithoutNames) {
  EXPECT_EQ(place_labels({}, {0, 100}).height, 0);
}

}  // namespace
}  // namespace pumpwright::report

#include "engine/seal/conditions_map.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "engine/seal/atmosphere.h"
#include "tests/support/given_liquid.h"
#include "tests/support/given_seal.h"
#include "tests/support/refused.h"
#include "tests/support/thread_executor.h"

namespace pumpwright::seal {
namespace {

const testing::ThinningLiquid liquid;

MapRequest given() {
  MapRequest r;
  r.seal = testing::given_film();
  r.seal.coning = {};
  r.coldest = kelvin(293.15);
  r.hottest = kelvin(403.15);
  r.temperatures = 15;
  r.lowest = {pascals(-0.9e5)};
  r.highest = {pascals(4e5)};
  r.pressures = 21;
  r.rise = pascals(2e5);
  r.share = 0.1;
  r.cells = 12;
  return r;
}

TEST(ConditionsMap, ColdIsSafeHotBoils) {
  SerialExecutor serial;
  const auto columns = ConditionsMap(liquid, given()).all(serial);
  ASSERT_EQ(columns.size(), 15U);
  EXPECT_EQ(kelvin_of(columns.front().temperature), 293.15);
  EXPECT_EQ(kelvin_of(columns.back().temperature), 403.15);
  EXPECT_EQ(columns.front().conditions.back(), Condition::by_difference);
  EXPECT_EQ(columns.back().conditions.front(), Condition::chamber_boils);
  for (const MapColumn& c : columns)
    EXPECT_EQ(std::count(c.conditions.begin(), c.conditions.end(), Condition::unsolved), 0);
}

TEST(ConditionsMap, EveryExecutorGivesTheSame) {
  const ConditionsMap map(liquid, given());
  SerialExecutor serial;
  testing::ThreadExecutor threads(3);
  testing::BackwardExecutor backward;
  const auto a = map.all(serial);
  const auto b = map.all(threads);
  const auto c = map.all(backward);
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_EQ(a[i].conditions, b[i].conditions);
    EXPECT_EQ(a[i].conditions, c[i].conditions);
    ASSERT_EQ(a[i].least_suction.has_value(), b[i].least_suction.has_value());
    if (a[i].least_suction) {
      EXPECT_EQ(a[i].least_suction->value, b[i].least_suction->value);
    }
  }
}

TEST(ConditionsMap, BlocksAreThePartsOfTheWhole) {
  const ConditionsMap map(liquid, given());
  EXPECT_EQ(map.blocks(), 4U);
  SerialExecutor serial;
  const auto all = map.all(serial);
  const auto last = map.block(3);
  ASSERT_EQ(last.size(), 3U);
  EXPECT_EQ(last.back().conditions, all.back().conditions);
}

// A column's cell is what one solve on its own says.
TEST(ConditionsMap, ACellIsASolveOfItsOwn) {
  const MapRequest r = given();
  SerialExecutor serial;
  const auto columns = ConditionsMap(liquid, r).all(serial);
  int solved = 0;
  for (std::size_t i = 0; i < columns.size(); i += 3)
    for (std::size_t j = 1; j < r.pressures; j += 4) {
      FilmCase c = r.seal;
      c.atmosphere = standard_atmosphere(r.altitude);
      c.chamber_temperature = columns[i].temperature;
      const double suction_pa = -0.9e5 + 4.9e5 * static_cast<double>(j) / 20;
      c.chamber = {pascals(suction_pa + 101'325 + 0.2e5)};
      if (c.chamber.value <= liquid.saturation_pressure(c.chamber_temperature).value) {
        EXPECT_EQ(columns[i].conditions[j], Condition::chamber_boils);
        continue;
      }
      const FilmSolution s = solve_film(c, liquid, {r.cells, 200});
      ASSERT_TRUE(s.converged);
      ++solved;
      const VapourMargin m = vapour_margin(liquid, c.chamber, s.face_hottest);
      const bool enough = columns[i].conditions[j] == Condition::by_ratio ||
                          columns[i].conditions[j] == Condition::by_difference;
      EXPECT_EQ(enough, m.enough) << i << ' ' << j;
    }
  EXPECT_GT(solved, 10);
}

TEST(ConditionsMap, TheLeastSuctionIsWhereItBecomesEnough) {
  MapRequest r = given();
  r.judged = JudgedAt::chamber;
  SerialExecutor serial;
  const SuctionRequest pump{r.rise, r.share, r.altitude};
  double last_pa = -1e9;
  int found = 0;
  for (const MapColumn& c : ConditionsMap(liquid, r).all(serial)) {
    if (!c.least_suction) continue;
    const double expected_pa =
        std::max(least_suction(least_chamber_pressure(liquid, c.temperature), pump).value.value(), -0.9e5);
    EXPECT_NEAR(c.least_suction->value.value(), expected_pa, 30);  // a thousandth of 24.5 kPa
    EXPECT_GE(c.least_suction->value.value(), last_pa);
    last_pa = c.least_suction->value.value();
    ++found;
  }
  EXPECT_GT(found, 10);
}

TEST(ConditionsMap, TheFaceIsTheStricterJudge) {
  MapRequest r = given();
  SerialExecutor serial;
  const auto at_face = ConditionsMap(liquid, r).all(serial);
  r.judged = JudgedAt::chamber;
  const auto at_chamber = ConditionsMap(liquid, r).all(serial);
  bool stricter_somewhere = false;
  for (std::size_t i = 0; i < at_face.size(); ++i)
    for (std::size_t j = 0; j < r.pressures; ++j) {
      EXPECT_LE(at_face[i].conditions[j], at_chamber[i].conditions[j]);
      stricter_somewhere = stricter_somewhere || at_face[i].conditions[j] < at_chamber[i].conditions[j];
    }
  EXPECT_TRUE(stricter_somewhere);
}

TEST(ConditionsMap, AltitudeTakesAwayMargin) {
  MapRequest r = given();
  r.judged = JudgedAt::chamber;
  SerialExecutor serial;
  const auto low = ConditionsMap(liquid, r).all(serial);
  r.altitude = metres(2000);
  const auto high = ConditionsMap(liquid, r).all(serial);
  ASSERT_TRUE(low[10].least_suction && high[10].least_suction);
  EXPECT_NEAR((high[10].least_suction->value - low[10].least_suction->value).value(), 101'325 - 79'495, 60);
}

TEST(ConditionsMap, ImpossibleRequestsAreNamed) {
  const auto field = [](auto change) {
    MapRequest r = given();
    change(r);
    return testing::refused_field([&] { ConditionsMap(liquid, r); });
  };
  EXPECT_EQ(field([](auto&) {}), "");
  EXPECT_EQ(field([](auto& r) { r.coldest = kelvin(100); }), "map/coldest");
  EXPECT_EQ(field([](auto& r) { r.hottest = r.coldest; }), "map/hottest");
  EXPECT_EQ(field([](auto& r) { r.highest = r.lowest; }), "map/highest");
  EXPECT_EQ(field([](auto& r) { r.temperatures = 1; }), "map/temperatures");
  EXPECT_EQ(field([](auto& r) { r.share = 2; }), "map/share");
  EXPECT_EQ(field([](auto& r) { r.seal.spring = newtons(-1); }), "spring force");
}

}  // namespace
}  // namespace pumpwright::seal

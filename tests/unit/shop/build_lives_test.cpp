#include "shop/build_lives.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "job/utc_time.h"
#include "tests/unit/shop/bench_shop.h"

namespace pumpwright::shop {
namespace {

using reliability::Ending;
using testing::BenchShop;

std::int64_t day(const std::string& text) {
  return job::parse_start_of_day(text, "day").seconds;
}

std::vector<BuildLife> lives_of(const std::vector<KnownBuild>& builds, std::int64_t now_s) {
  return as_of(lives_in(builds), now_s);
}

KnownBuild build(std::string_view number, std::string_view serial, const std::string& opened,
                 const std::string& out = "", job::CameFor came_for = job::CameFor::fault) {
  KnownBuild known{
      .number = number, .serial = serial, .customer = "orchard", .pump = "wash pump, 2 in", .seal = ""};
  known.came_for = came_for;
  known.opened_s = day(opened);
  if (!out.empty()) known.out_s = day(out);
  return known;
}

TEST(BuildLives, APumpIsOutFromItsReleaseUntilItsNextJobOrUntilNow) {
  const std::vector<KnownBuild> builds{
      build("A-1", "S1", "2026-01-01", "2026-01-03"), build("A-2", "S2", "2026-01-02", "2026-01-05"),
      build("A-3", "S1", "2026-02-02", "2026-02-04"), build("A-4", "S2", "2026-03-01")};
  const auto lives = lives_of(builds, day("2026-04-01"));
  ASSERT_EQ(lives.size(), 3U);
  EXPECT_EQ(lives[0].build->number, "A-1");
  EXPECT_EQ(lives[0].ending, Ending::returned);
  EXPECT_DOUBLE_EQ(lives[0].days, 30);
  EXPECT_EQ(lives[1].ending, Ending::returned);
  EXPECT_DOUBLE_EQ(lives[1].days, 55);
  EXPECT_EQ(lives[2].build->number, "A-3");  // still out
  EXPECT_EQ(lives[2].ending, Ending::running);
  EXPECT_DOUBLE_EQ(lives[2].days, 56);
}

TEST(BuildLives, TheOrderInWhichTheyCameToTheStoreDoesNotMatter) {
  const std::vector<KnownBuild> builds{build("new", "S1", "2026-02-02", "2026-02-04"),
                                       build("old", "S1", "2026-01-01", "2026-01-03")};
  const auto lives = lives_of(builds, day("2026-04-01"));
  ASSERT_EQ(lives.size(), 2U);
  EXPECT_EQ(lives[0].build->number, "old");
  EXPECT_DOUBLE_EQ(lives[0].days, 30);
  EXPECT_EQ(lives[1].ending, Ending::running);
}

TEST(BuildLives, WhatTheNextJobSaysItCameForDecidesHowALifeEnded) {
  const std::vector<KnownBuild> builds{build("A-1", "S1", "2026-01-01", "2026-01-03"),
                                       build("A-2", "S1", "2026-02-01", "2026-02-03", job::CameFor::other),
                                       build("A-3", "S1", "2026-03-01", "2026-03-03", job::CameFor::not_said),
                                       build("A-4", "S1", "2026-03-09", "2026-03-10", job::CameFor::fault)};
  const auto lives = lives_of(builds, day("2026-04-01"));
  ASSERT_EQ(lives.size(), 4U);
  EXPECT_EQ(lives[0].ending, Ending::replaced);
  EXPECT_TRUE(lives[0].reason_said);
  EXPECT_EQ(lives[1].ending, Ending::returned);
  EXPECT_FALSE(lives[1].reason_said);
  EXPECT_EQ(lives[2].ending, Ending::returned);
  EXPECT_TRUE(lives[2].reason_said);
  EXPECT_EQ(lives[3].ending, Ending::running);
  EXPECT_TRUE(lives[3].reason_said);
}

TEST(BuildLives, WithoutASerialNumberOrAReleaseThereIsNoLife) {
  const std::vector<KnownBuild> builds{build("A-1", "", "2026-01-01", "2026-01-03"),
                                       build("A-2", "S2", "2026-01-02"), build("A-3", "S2", "2026-02-01")};
  EXPECT_TRUE(lives_of(builds, day("2026-04-01")).empty());
}

TEST(BuildLives, APumpOpenedAgainInTheSecondOfItsReleaseWasNotOut) {
  const std::vector<KnownBuild> builds{build("A-1", "S1", "2026-01-01", "2026-01-03"),
                                       build("A-2", "S1", "2026-01-03")};
  EXPECT_TRUE(lives_of(builds, day("2026-04-01")).empty());
}

TEST(BuildLives, ATableForReturnsHoldsTheReadingsOfTheBuildInMicrometres) {
  KnownBuild known = build("A,1", "S\"1", "2026-01-01", "2026-01-03");
  known.seal = "elastomer-bellows, EPDM";
  known.readings[0] = 8.89e-5;
  EXPECT_EQ(lives_csv({BuildLife{&known, 213.44, Ending::replaced, true}}),
            "pump,job,group,customer,seal,out,time,event,impeller_sweep_um,sleeve_runout_um,shaft_runout_um,"
            "register_runout_um,face_runout_um,seat_squareness_um,end_float_um\r\n"
            "\"S\"\"1\",\"A,1\",\"wash pump, 2 in\",orchard,\"elastomer-bellows, EPDM\",2026-01-03,213.44 d,"
            "replaced,88.9,,,,,,\r\n");
}

TEST(BuildLives, AReleasedJobOfTheShopIsOutWithWhatWasReadAtItsBuild) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  EXPECT_TRUE(bench.shop().lives().lives.empty());
  bench.work_through("greenhouse-circulator");
  bench.shop().release(bench.lead(), number, bench.envelope(), testing::lead_password, "ready");
  const auto builds =
      bench.shop().lives().builds;  // the shop's clock stands before the store's: not yet a life
  ASSERT_EQ(builds->size(), 1U);
  EXPECT_EQ(builds->front().number, number);
  EXPECT_EQ(builds->front().seal, "elastomer-bellows, EPDM, B/V");
  ASSERT_TRUE(builds->front().out_s);
  const auto lives = lives_of(*builds, day("2100-01-01"));
  ASSERT_EQ(lives.size(), 1U);
  EXPECT_GT(lives[0].days, 1);
  const auto& readings = lives[0].build->readings;
  EXPECT_GT(readings[0].value_or(0), 0);  // the impeller's sweep
  EXPECT_EQ(std::count(readings.begin(), readings.end(), std::nullopt), 0);
}

TEST(BuildLives, ANoteAfterTheReleaseDoesNotMoveIt) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  bench.work_through("greenhouse-circulator");
  bench.shop().release(bench.lead(), number, bench.envelope(), testing::lead_password, "ready");
  const auto released = bench.shop().search(number, 1).front().released_at;
  ASSERT_FALSE(released.empty());
  bench.in(bench.lead(), number, "note", {{"step", "make-safe"}, {"text", "fetched"}});
  EXPECT_EQ(bench.shop().search(number, 1).front().released_at, released);
  const std::string before = bench.store().index().dump();
  bench.shop().rebuild_index();
  EXPECT_EQ(bench.store().index().dump(), before);
}

}  // namespace
}  // namespace pumpwright::shop

#include "shop/build_lives.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "tests/unit/shop/bench_shop.h"

namespace pumpwright::shop {
namespace {

using testing::BenchShop;

constexpr std::int64_t day_ms = 86'400'000;
constexpr std::int64_t january_ms = 1'767'225'600'000;  // 2026-01-01T00:00:00Z

JobCard card(const std::string& number, const std::string& serial, const std::string& opened,
             const std::string& last_at, bool released = true) {
  JobCard out;
  out.number = number;
  out.serial = serial;
  out.pump = "wash pump, 2 in";
  out.opened = opened + "T00:00:00Z";
  out.last_at = last_at + "T00:00:00.250Z";
  out.released = released;
  return out;
}

TEST(BuildLives, APumpIsOutFromItsReleaseUntilItsNextJobOrUntilNow) {
  const std::vector<JobCard> cards{
      card("A-1", "S1", "2026-01-01", "2026-01-03"), card("A-2", "S2", "2026-01-02", "2026-01-05"),
      card("A-3", "S1", "2026-02-02", "2026-02-04"), card("A-4", "S2", "2026-03-01", "2026-03-01", false)};
  const auto lives = lives_of(cards, january_ms + 90 * day_ms);
  ASSERT_EQ(lives.size(), 3U);
  EXPECT_EQ(lives[0].card.number, "A-1");
  EXPECT_TRUE(lives[0].returned);
  EXPECT_DOUBLE_EQ(lives[0].days, 30);
  EXPECT_TRUE(lives[1].returned);
  EXPECT_DOUBLE_EQ(lives[1].days, 55);
  EXPECT_EQ(lives[2].card.number, "A-3");  // still out
  EXPECT_FALSE(lives[2].returned);
  EXPECT_DOUBLE_EQ(lives[2].days, 56);
}

TEST(BuildLives, WithoutASerialNumberOrAReleaseThereIsNoLife) {
  const std::vector<JobCard> cards{card("A-1", "", "2026-01-01", "2026-01-03"),
                                   card("A-2", "S2", "2026-01-02", "2026-01-05", false),
                                   card("A-3", "S2", "2026-02-01", "2026-02-01", false)};
  EXPECT_TRUE(lives_of(cards, january_ms + 90 * day_ms).empty());
}

TEST(BuildLives, ATableForReturnsHoldsTheReadingsOfTheBuildInMicrometres) {
  BuildLife life{card("A,1", "S\"1", "2026-01-01", "2026-01-03"), 213.44, true, {8.89e-5, std::nullopt}};
  EXPECT_EQ(lives_csv({life}, {"impeller-sweep", "end-float"}),
            "pump,job,group,time,event,impeller_sweep_um,end_float_um\r\n"
            "\"S\"\"1\",\"A,1\",\"wash pump, 2 in\",213.44 d,returned,88.9,\r\n");
}

TEST(BuildLives, AReleasedJobOfTheShopIsOutWithWhatWasReadAtItsBuild) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  bench.work_through("greenhouse-circulator");
  bench.shop().release(bench.lead(), number, bench.envelope(), testing::lead_password, "ready");
  const std::int64_t year_2100_ms = 4'102'444'800'000;  // the store's clock is the machine's
  const auto lives = build_lives(bench.store().index(), checks_of_lives(), year_2100_ms);
  ASSERT_EQ(lives.size(), 1U);
  EXPECT_FALSE(lives[0].returned);
  EXPECT_GT(lives[0].days, 1);
  ASSERT_EQ(lives[0].readings.size(), checks_of_lives().size());
  EXPECT_GT(lives[0].readings[0].value_or(0), 0);  // the impeller's sweep
  EXPECT_EQ(std::count(lives[0].readings.begin(), lives[0].readings.end(), std::nullopt), 0);
}

}  // namespace
}  // namespace pumpwright::shop

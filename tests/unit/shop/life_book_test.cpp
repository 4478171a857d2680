#include "shop/life_book.h"

#include <gtest/gtest.h>

#include "job/utc_time.h"
#include "shop/old_shelf.h"
#include "tests/unit/shop/bench_shop.h"

namespace pumpwright::shop {
namespace {

using testing::BenchShop;

constexpr std::int64_t late_s = 4'000'000'000;

std::vector<std::string> outs(LifeBook& book) {
  std::vector<std::string> out;
  const auto lives = book.lives(late_s);
  for (const auto& life : lives.lives)
    out.push_back(std::string(life.build->number) + " " + job::format_utc_day({*life.build->out_s}));
  return out;
}

OldJob old(const std::string& number, const std::string& out) {
  OldJob job;
  job.number = number;
  job.serial = "S-" + number;
  job.came_in = job::parse_start_of_day("2024-01-01", "day");
  job.went_out = job::parse_start_of_day(out, "day");
  job.file = "book.csv";
  job.line = 2;
  return job;
}

TEST(LifeBook, FollowsWhatIsAddedAndWhatIsCorrected) {
  BenchShop bench;
  LifeBook book(bench.store().index());
  EXPECT_TRUE(outs(book).empty());
  std::vector<OldJob> jobs{old("A", "2024-01-05"), old("B", "2024-01-06")};
  bench.shop().take_old_jobs(bench.lead(), jobs);
  EXPECT_EQ(outs(book), (std::vector<std::string>{"A 2024-01-05", "B 2024-01-06"}));
  jobs = {old("B", "2024-02-07"), old("C", "2024-01-08")};
  bench.shop().take_old_jobs(bench.lead(), jobs);
  EXPECT_EQ(outs(book), (std::vector<std::string>{"A 2024-01-05", "B 2024-02-07", "C 2024-01-08"}));
  book.forget();
  EXPECT_EQ(outs(book).size(), 3U);
}

TEST(LifeBook, WhatWasHandedOutStaysAsItWas) {
  BenchShop bench;
  LifeBook book(bench.store().index());
  bench.shop().take_old_jobs(bench.lead(), std::vector<OldJob>{old("A", "2024-01-05")});
  const Lives before = book.lives(late_s);
  bench.shop().take_old_jobs(bench.lead(),
                             std::vector<OldJob>{old("A", "2024-03-05"), old("B", "2024-01-06")});
  EXPECT_EQ(outs(book).size(), 2U);
  ASSERT_EQ(before.lives.size(), 1U);
  EXPECT_EQ(job::format_utc_day({*before.lives.front().build->out_s}), "2024-01-05");
}

TEST(LifeBook, HandsOutTheSameAgainWhileNoLifeChanges) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  LifeBook book(bench.store().index());
  const auto before = book.lives(late_s).builds;
  ASSERT_EQ(before->size(), 1U);
  bench.in(bench.lead(), number, "note", {{"step", "make-safe"}, {"text", "tag 14"}});
  EXPECT_EQ(book.lives(late_s).builds, before);
  bench.shop().take_old_jobs(bench.lead(), std::vector<OldJob>{old("A", "2024-01-05")});
  EXPECT_NE(book.lives(late_s).builds, before);
}

}  // namespace
}  // namespace pumpwright::shop

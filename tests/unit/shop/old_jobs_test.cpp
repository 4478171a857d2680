// Jobs from before the program, from the ledger to the log and back.
#include <gtest/gtest.h>

#include "job/utc_time.h"
#include "shop/old_shelf.h"
#include "tests/unit/shop/bench_shop.h"

namespace pumpwright::shop {
namespace {

using testing::BenchShop;

job::UtcTime day(const std::string& text) {
  return job::parse_start_of_day(text, "day");
}

OldJob old(const std::string& number, const std::string& serial, const std::string& in,
           const std::string& out = "") {
  OldJob job;
  job.number = number;
  job.serial = serial;
  job.pump = "circulator";
  job.customer = "greenhouse";
  job.came_in = day(in);
  if (!out.empty()) job.went_out = day(out);
  job.reason = "drips at stand-still";
  job.found = "elastomer swollen";
  job.changed = "EPDM next time";
  job.file = "book.csv";
  job.line = 7;
  job.readings.emplace("end-float", parse_written("4 thou", Kind::length, {.field = "end float"}));
  return job;
}

TEST(OldJobs, TheirPayloadTellsAllThatIsKnown) {
  OldJob job = old("L-7", "GH-0043", "2024-03-01", "2024-03-04");
  job.came_for = job::CameFor::other;
  const OldJob again = decode_old_job(encode_old_job(job));
  EXPECT_TRUE(tell_the_same(again, job));
  EXPECT_EQ(again.file, "book.csv");
  EXPECT_EQ(again.line, 7U);
  EXPECT_EQ(again.came_for, job::CameFor::other);
  EXPECT_EQ(again.readings.at("end-float").si, job.readings.at("end-float").si);
  OldJob elsewhere = job;
  elsewhere.line = 9;
  EXPECT_TRUE(tell_the_same(elsewhere, job));
  elsewhere.found = "faces dry";
  EXPECT_FALSE(tell_the_same(elsewhere, job));
}

TEST(OldJobs, HandedInAgainChangeNothingAndInOtherWordsAreACorrection) {
  BenchShop bench;
  std::vector<OldJob> jobs;
  for (int i = 0; i < 300; ++i)  // more than are written with one sync
    jobs.push_back(old("L-" + std::to_string(i), "GH-0043", "2024-03-01", "2024-03-04"));
  const auto first = bench.shop().take_old_jobs(bench.lead(), jobs);
  EXPECT_EQ(first.taken, 300U);
  EXPECT_EQ(first.known, 0U);
  const auto again = bench.shop().take_old_jobs(bench.lead(), jobs);
  EXPECT_EQ(again.taken, 0U);
  EXPECT_EQ(again.known, 300U);
  jobs[5].found = "faces dry";
  EXPECT_EQ(bench.shop().take_old_jobs(bench.lead(), jobs).taken, 1U);
  jobs[5].found = "elastomer swollen";  // and back again
  EXPECT_EQ(bench.shop().take_old_jobs(bench.lead(), jobs).taken, 1U);
  EXPECT_EQ(bench.store().events().read("old/L-5").size(), 3U);
  EXPECT_EQ(old_job(bench.store().events(), "L-5")->found, "elastomer swollen");
  EXPECT_FALSE(old_job(bench.store().events(), "L-999"));
  const std::string before = bench.store().index().dump();
  bench.shop().rebuild_index();
  EXPECT_EQ(bench.store().index().dump(), before);
}

TEST(OldJobs, OnlyALeadHandTakesThemIn) {
  BenchShop bench;
  const std::vector<OldJob> jobs{old("L-1", "GH-0043", "2024-03-01")};
  EXPECT_THROW(bench.shop().take_old_jobs(bench.hand("J.M."), jobs), Refused);
}

TEST(OldJobs, StandInThePastOfThePumpBehindTheJobsOfTheProgram) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  const std::vector<OldJob> jobs{old("L-1", "GH-0043", "2024-03-01", "2024-03-04"),
                                 old("L-2", "GH-0043", "2025-03-01"), old("L-3", "GH-0044", "2025-03-01")};
  bench.shop().take_old_jobs(bench.lead(), jobs);
  const auto past = bench.shop().past_of(number);
  ASSERT_EQ(past.builds.size(), 2U);
  EXPECT_EQ(past.builds[0].card.number, "L-2");  // the newest first
  EXPECT_FALSE(past.builds[0].card.released);
  EXPECT_EQ(past.builds[1].card.number, "L-1");
  EXPECT_TRUE(past.builds[1].card.released);
  ASSERT_TRUE(past.builds[1].old);
  EXPECT_EQ(past.builds[1].old->changed, "EPDM next time");
  EXPECT_EQ(past.builds[1].header.reason, "drips at stand-still");
  ASSERT_EQ(past.builds[1].values.size(), 1U);
  EXPECT_EQ(past.builds[1].values[0].series, "check/end-float");
}

TEST(OldJobs, AreLivesUntilTheNextJobOfThePump) {
  BenchShop bench;
  const std::vector<OldJob> jobs{old("L-1", "GH-0043", "2026-03-01", "2026-03-04"),
                                 old("L-2", "GH-0044", "2026-03-01", "2026-03-04")};
  bench.shop().take_old_jobs(bench.lead(), jobs);
  bench.open_demo("greenhouse-circulator");  // GH-0043, a fault, on 2026-11-18
  const auto lives = bench.shop().lives();
  ASSERT_EQ(lives.lives.size(), 2U);
  EXPECT_EQ(lives.lives[0].ending, reliability::Ending::returned);
  EXPECT_NEAR(lives.lives[0].days, 259.3, 0.1);  // 4 March to 18 November, 07:50
  EXPECT_EQ(lives.lives[1].ending, reliability::Ending::running);
}

TEST(OldJobs, AShopWhoseListsAnOlderProgramMadeHasThemMadeAnew) {
  BenchShop bench;
  const std::string number = bench.open_demo("greenhouse-circulator");
  const std::string before = bench.store().index().dump();
  const std::string stream = "job/" + number;
  auto entry = bench.store().index().entry(stream).value();
  entry.fields = R"({"number": "G-2117", "serial": "GH-0043"})";
  ASSERT_TRUE(bench.store().index().replace(stream, {entry, {}}, bench.store().events().head(stream)));
  bench.open();
  EXPECT_EQ(bench.store().index().dump(), before);
  EXPECT_EQ(bench.shop().search(number, 1).size(), 1U);
}

TEST(OldJobs, AreFoundByTheirSerialNumberAndMarkedAsOld) {
  BenchShop bench;
  const std::vector<OldJob> jobs{old("L-1", "GH-0777", "2026-03-01")};
  bench.shop().take_old_jobs(bench.lead(), jobs);
  const auto found = bench.shop().search("GH-0777", 10);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_TRUE(found[0].old);
  EXPECT_TRUE(bench.shop().search("greenhouse", 10).empty());  // a ledger does not stand before jobs
  EXPECT_TRUE(bench.shop().open_jobs().empty());
}

}  // namespace
}  // namespace pumpwright::shop

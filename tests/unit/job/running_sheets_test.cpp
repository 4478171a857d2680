// Rotor, balance and alignment as sheets of a job: what their readings prove, and what is said to do next.
#include <gtest/gtest.h>

#include "tests/unit/job/sheet_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::all_remarks;
using testing::example;
using testing::job_with;
using testing::judge_document;
using testing::result_of;

TEST(BalanceInAJob, PassesWhenTheLastRunShowsIt) {
  const auto judged =
      judge_document(job_with(SheetOf::balance, "balance", example("balance-greenhouse-rotor"), "balanced"));
  const CheckFinding& found = judged.of("balanced");
  EXPECT_EQ(found.verdict, Verdict::pass);
  EXPECT_EQ(found.readings.at(0).as_written, "corrected, again: 0.24 mm/s 328 deg; 0.18 mm/s 150 deg");
  EXPECT_EQ(lines_of(result_of(found)).at(0).value.en, "296 g·mm (G 6.3)");
  const auto picture = picture_of(result_of(found));
  ASSERT_TRUE(picture);
  EXPECT_GE(picture->circles.size(), 2U + 7U);  // two planes, seven places in the first
}

TEST(BalanceInAJob, SaysWhatToAddAndWhereWhileItFails) {
  json file = example("balance-greenhouse-rotor");
  auto& runs = file["runs"];
  runs.erase(runs.begin() + 4, runs.end());  // before the correction
  const auto judged = judge_document(job_with(SheetOf::balance, "balance", file, "balanced"));
  EXPECT_EQ(judged.of("balanced").verdict, Verdict::fail);
  EXPECT_EQ(judged.of("balanced").reason, Reason::test_failed);
  const std::string said = all_remarks(judged.of("balanced"));
  EXPECT_NE(said.find("impeller: add"), std::string::npos) << said;
  EXPECT_NE(said.find("fan end: poner"), std::string::npos) << said;
}

TEST(BalanceInAJob, OneRunAloneProvesNothing) {
  json file = example("balance-greenhouse-rotor");
  file["runs"].erase(file["runs"].begin() + 1, file["runs"].end());
  const auto judged = judge_document(job_with(SheetOf::balance, "balance", file, "balanced"));
  EXPECT_EQ(judged.of("balanced").verdict, Verdict::unproven);
  EXPECT_EQ(judged.of("balanced").reason, Reason::test_proves_nothing);
  EXPECT_FALSE(picture_of(result_of(judged.of("balanced"))));
}

TEST(BalanceInAJob, PlanesAndSensorsGoByTheirNumbersToo) {
  const json named = example("balance-greenhouse-rotor");
  json numbered = named;
  for (auto& run : numbered["runs"]) {
    for (auto& weight : run["fitted"])
      weight["plane"] = weight["plane"] == "impeller" ? "1" : "2";
    for (auto& reading : run["readings"])
      reading["sensor"] = reading["sensor"] == "impeller-end bearing" ? "1" : "2";
  }
  const auto a = judge_document(job_with(SheetOf::balance, "balance", named, "balanced"));
  const auto b = judge_document(job_with(SheetOf::balance, "balance", numbered, "balanced"));
  EXPECT_EQ(lines_of(result_of(a.of("balanced"))).back().value.en,
            lines_of(result_of(b.of("balanced"))).back().value.en);
}

TEST(AlignmentInAJob, FailsWithShimsAndPushesForEveryPairOfFeet) {
  const auto judged = judge_document(
      job_with(SheetOf::alignment, "alignment", example("align-greenhouse-rim-and-face"), "aligned"));
  EXPECT_EQ(judged.of("aligned").verdict, Verdict::fail);
  const std::string said = all_remarks(judged.of("aligned"));
  EXPECT_NE(said.find("Front feet: lower"), std::string::npos) << said;
  EXPECT_NE(said.find("pies traseros: bajar"), std::string::npos) << said;
  const auto picture = picture_of(result_of(judged.of("aligned")));
  ASSERT_TRUE(picture);
  EXPECT_NE(picture->note.en.find("times larger"), std::string::npos);
}

TEST(AlignmentInAJob, TheShopsDialIsTheIndicatorUnlessTheSheetNamesAnother) {
  json file = example("align-greenhouse-rim-and-face");
  file.erase("indicator");
  const auto judged = judge_document(job_with(SheetOf::alignment, "alignment", file, "aligned"));
  EXPECT_EQ(judged.of("aligned").verdict, Verdict::fail);
  const auto& result = std::get<AlignmentResult>(result_of(judged.of("aligned")).of);
  const auto& dial = judged.snapshot.instruments.at("dial-1");
  EXPECT_EQ(result.sheet.instrument.graduation.value(), dial.graduation.si);
}

TEST(AlignmentInAJob, ASoftFootProvesNothing) {
  json file = example("align-greenhouse-rim-and-face");
  file["soft_foot"] = {
      {"front left", "0 thou"}, {"front right", "0 thou"}, {"back left", "9 thou"}, {"back right", "0 thou"}};
  const auto judged = judge_document(job_with(SheetOf::alignment, "alignment", file, "aligned"));
  EXPECT_EQ(judged.of("aligned").reason, Reason::test_proves_nothing);
}

TEST(RotorInAJob, IsJudgedWithoutAReading) {
  const auto judged = judge_document(
      job_with(SheetOf::rotor, "rotor", example("rotor-greenhouse-circulator"), "deflection-at-seal"));
  EXPECT_EQ(judged.of("deflection-at-seal").verdict, Verdict::pass);
  EXPECT_EQ(judged.of("critical-speed").verdict, Verdict::unproven);
  EXPECT_EQ(judged.of("critical-speed").reason, Reason::not_computable);
  EXPECT_EQ(judged.judgement.find("bearing-life"), nullptr);  // nobody said how long they have to live
  EXPECT_TRUE(picture_of(result_of(judged.of("deflection-at-seal"))));
}

TEST(RotorInAJob, ALifeThatIsAskedForIsJudged) {
  json file = example("rotor-greenhouse-circulator");
  file["limits"] = {{"life", "1000000 h"}, {"source", "the customer"}};
  const auto judged = judge_document(job_with(SheetOf::rotor, "rotor", file, "deflection-at-seal"));
  EXPECT_EQ(judged.of("bearing-life").verdict, Verdict::fail);
}

TEST(SheetPicture, MagnifiesByOneTwoOrFiveTimesAPowerOfTen) {
  EXPECT_EQ(magnification_for(0.09, 30), 200);
  EXPECT_EQ(magnification_for(0.03, 30), 1000);
  EXPECT_EQ(magnification_for(0.05, 30), 500);
  EXPECT_EQ(magnification_for(0, 30), 1);
}

}  // namespace
}  // namespace pumpwright::job

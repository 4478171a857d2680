// What decides a verdict and what may not.
#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::judge_document;
using testing::reading_of;

TEST(Judge, TheFinishedGreenhousePumpPassesEveryCheckAndIsReleased) {
  const auto judged = judge_document(demo("greenhouse-circulator"));
  for (const auto& finding : judged.judgement.findings)
    EXPECT_EQ(finding.verdict, Verdict::pass) << finding.check << ": " << word_of(finding.reason);
  EXPECT_TRUE(judged.judgement.all_pass());
  EXPECT_TRUE(judged.judgement.open.empty());
}

TEST(Judge, IsPure) {
  const auto a = judge_document(demo("orchard-wash"));
  const auto again = judge(a.snapshot, a.state);
  ASSERT_EQ(a.judgement.findings.size(), again.findings.size());
  for (std::size_t i = 0; i < again.findings.size(); ++i) {
    EXPECT_EQ(a.judgement.findings[i].verdict, again.findings[i].verdict);
    EXPECT_EQ(a.judgement.findings[i].reason, again.findings[i].reason);
  }
}

TEST(Judge, ACommonPracticeLimitDecidesOnlyOnceTheShopHasAdoptedIt) {
  json document = demo("greenhouse-circulator");
  auto& adopted = document["shop"]["adopted"];
  for (std::size_t i = 0; i < adopted.size(); ++i)
    if (adopted[i]["limit"] == "seal-limits/impeller-sweep") adopted.erase(i--);
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("impeller-sweep").verdict, Verdict::unproven);
  EXPECT_EQ(judged.of("impeller-sweep").reason, Reason::limit_not_adopted);
  EXPECT_TRUE(judged.of("impeller-sweep").readings[0].value.has_value());
}

TEST(Judge, ARememberedLimitIsUnprovenUntilConfirmed) {
  json document = demo("greenhouse-circulator");
  document["shop"]["adopted"] = json::array();
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("shaft-diameter").reason, Reason::limit_unconfirmed);
  EXPECT_EQ(judged.of("shaft-diameter").verdict, Verdict::unproven);
}

TEST(Judge, AnInstrumentOutOfDateAtTheReadingProvesNothing) {
  const auto judged = judge_document(demo("orchard-wash"));
  EXPECT_EQ(judged.of("register-runout").reason, Reason::instrument_out_of_date);
  json document = demo("orchard-wash");
  reading_of(document, "register-runout")["time"] = "2026-08-31T23:00:00Z";
  EXPECT_EQ(judge_document(document).of("register-runout").verdict, Verdict::pass);
}

TEST(Judge, AReadingWithinTheUncertaintyOfItsLimitIsUnprovenAndSaysWhatWouldSettleIt) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "seat-depth")["values"] = {"1.5095", "1.5095"};
  const auto finding = judge_document(document).of("seat-depth");
  EXPECT_EQ(finding.reason, Reason::inside_uncertainty);
  ASSERT_TRUE(finding.readings[0].settle.has_value());
  EXPECT_NE(finding.readings[0].settle->text.en.find("settle"), std::string::npos);
  EXPECT_GT(*finding.readings[0].conformance_probability, 0.5);
}

TEST(Judge, SimpleAcceptanceRefusesAnInstrumentTooCoarseForTheLimit) {
  json document = demo("greenhouse-circulator");
  for (auto& i : document["shop"]["instruments"])
    if (i["id"] == "dial-1") i["graduation"] = "1 thou";
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("sleeve-runout").reason,
            Reason::instrument_too_coarse);                       // 2 thou hold two graduations, not four
  EXPECT_EQ(judged.of("impeller-sweep").verdict, Verdict::pass);  // 7 thou hold seven
}

TEST(Judge, ARefusedConfirmationFails) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "turns-free")["done"] = false;
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("turns-free").verdict, Verdict::fail);
  EXPECT_EQ(judged.of("turns-free").reason, Reason::refused);
  EXPECT_FALSE(judged.judgement.open.empty());
}

TEST(Judge, ADeviationChangesWhatMayBeReleasedNeverTheVerdict) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "turns-free")["done"] = false;
  document["events"].push_back({{"event", "deviation-accepted"},
                                {"check", "turns-free"},
                                {"reason", "seal drag, customer agreed"},
                                {"time", "2026-11-18T16:00:00Z"},
                                {"actor", "L.H."}});
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("turns-free").verdict, Verdict::fail);
  EXPECT_TRUE(judged.of("turns-free").deviation_accepted);
  EXPECT_TRUE(judged.judgement.open.empty());
}

TEST(Judge, OfTwoReadingsThatStandTheWorstDecides) {
  json document = demo("greenhouse-circulator");
  json second = reading_of(document, "end-float");
  second["id"] = "r-second";
  second["value"] = "14";
  document["events"].push_back(second);
  const auto finding = judge_document(document).of("end-float");
  EXPECT_EQ(finding.readings.size(), 2U);
  EXPECT_EQ(finding.verdict, Verdict::fail);
}

TEST(Judge, ASizeMustKeepToItsLimitsAtEveryPlace) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "shaft-diameter")["size"]["points"][2]["diameter"] = "0.8735";
  const auto finding = judge_document(document).of("shaft-diameter");
  EXPECT_EQ(finding.verdict, Verdict::fail);
  EXPECT_NEAR(finding.readings[0].value->si(), 0.8735 * 0.0254, 1e-9);
}

TEST(Judge, AWarmShaftIsJudgedAtTwentyDegrees) {
  json document = demo("orchard-wash");
  auto& size = reading_of(document, "shaft-diameter")["size"];
  size["part_temperature"] = "60 degC";
  // 28.006 mm at 60 °C is 28.006 / (1 + 11.6e-6·40) = 27.993 mm at 20 °C: under the 27.996 mm of 28 j6.
  const auto finding = judge_document(document).of("shaft-diameter");
  EXPECT_EQ(finding.verdict, Verdict::fail);
  size.erase("material");
  EXPECT_NE(testing::refusal([&] { judge_document(document); }).find("material"), std::string::npos);
}

TEST(Judge, TheClockBetweenTwoStepsIsJudged) {
  EXPECT_EQ(judge_document(demo("greenhouse-circulator")).of("length-in-time").verdict, Verdict::pass);
  json document = demo("orchard-wash");
  document["shop"]["adopted"].push_back(
      {{"limit", "lubricants/soapy-water"}, {"by", "L.H."}, {"time", "2026-01-05T09:00:00Z"}});
  EXPECT_EQ(judge_document(document).of("length-in-time").verdict, Verdict::fail);  // 28 min against 15 min
}

TEST(Judge, AnOverTightenedFastenerIsFoundByItsShareOfProofLoad) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "impeller-torque")["value"] = "45";
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("impeller-torque").verdict, Verdict::fail);
  EXPECT_EQ(judged.of("fastener-preload").verdict, Verdict::fail);
}

TEST(Judge, CountsAddUp) {
  const auto judged = judge_document(demo("aquarium-seawater"));
  const auto& j = judged.judgement;
  EXPECT_EQ(static_cast<std::size_t>(j.passed + j.failed + j.unproven + j.not_taken), j.findings.size());
  EXPECT_GT(j.not_taken, 0);
  EXPECT_FALSE(j.all_pass());
}

}  // namespace
}  // namespace pumpwright::job

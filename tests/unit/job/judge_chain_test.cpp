// Checks that are computed from others.
#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::judge_document;
using testing::reading_of;

TEST(Chain, TheWorkingLengthIsTheSumOfItsMeasuredParts) {
  const auto judged = judge_document(demo("greenhouse-circulator"));
  const auto& finding = judged.of("working-length");
  // 1.375333 + 1.499 - 1.4975 - 0.3748 in
  EXPECT_NEAR(finding.readings[0].value->si(), (4.126 / 3 + 1.499 - 1.4975 - 0.3748) * 0.0254, 1e-9);
  double sum = 0;
  for (const auto& share : finding.chain)
    sum += share.fraction;
  EXPECT_NEAR(sum, 1, 1e-12);
}

TEST(Chain, AStackTooShortFailsWithWhatToDo) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "sleeve-length")["value"] = "1.440";
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("working-length").verdict, Verdict::fail);
  EXPECT_NE(judged.snapshot.plan.find("working-length")->if_it_fails.en.find("shim"), std::string::npos);
}

TEST(Chain, AMissingPartIsNamedAndNothingIsClaimed) {
  json document = demo("greenhouse-circulator");
  auto& events = document["events"];
  for (std::size_t i = 0; i < events.size(); ++i)
    if (events[i].value("check", "") == "seat-thickness") events.erase(i--);
  const auto finding = judge_document(document).of("working-length");
  EXPECT_EQ(finding.verdict, Verdict::not_taken);
  EXPECT_EQ(finding.reason, Reason::input_missing);
  ASSERT_FALSE(finding.readings[0].remarks.empty());
  EXPECT_NE(finding.readings[0].remarks[0].en.find("seat"), std::string::npos);
}

TEST(Chain, APartReadWithAnInstrumentOutOfDateProvesNothing) {
  json document = demo("greenhouse-circulator");
  for (auto& i : document["shop"]["instruments"])
    if (i["id"] == "depth-1") i["due"] = "2026-03-01";
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("working-length").verdict, Verdict::unproven);
  EXPECT_EQ(judged.of("working-length").reason, Reason::instrument_out_of_date);
}

TEST(Chain, AToleranceOfTheSheetAddsToTheDoubt) {
  json document = demo("greenhouse-circulator");
  const double before = *judge_document(document).of("axial-clearance").readings[0].standard_uncertainty;
  document["make_up"]["dimensions"]["gasket_thickness"] = {
      {"nominal", "0.030 in"}, {"lower", "0.020 in"}, {"upper", "0.040 in"}};
  EXPECT_GT(*judge_document(document).of("axial-clearance").readings[0].standard_uncertainty, 1.5 * before);
}

}  // namespace
}  // namespace pumpwright::job

// A sweep proves something only when it is known how the indicator sat.
#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::judge_document;
using testing::reading_of;

Reason reason_with(const std::string& check, const std::string& key, const json& value) {
  json document = demo("greenhouse-circulator");
  auto& sweep = reading_of(document, check)["sweep"];
  if (value.is_null())
    sweep.erase(key);
  else
    sweep[key] = value;
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of(check).verdict, Verdict::unproven);
  return judged.of(check).reason;
}

TEST(SweepReading, WhatStandsInTheWayOfAVerdictIsNamed) {
  EXPECT_EQ(reason_with("impeller-sweep", "mount", nullptr), Reason::mount_missing);
  EXPECT_EQ(reason_with("impeller-sweep", "mount", "housing"), Reason::wrong_mount);
  EXPECT_EQ(reason_with("impeller-sweep", "base", "bench"), Reason::base_not_rigid);
  EXPECT_EQ(reason_with("impeller-sweep", "base", "resilient-foot"), Reason::base_not_rigid);
  EXPECT_EQ(reason_with("impeller-sweep", "zero_return", nullptr), Reason::setup_not_proven);
  EXPECT_EQ(reason_with("impeller-sweep", "zero_return", "0.3"), Reason::setup_moves);
  EXPECT_EQ(reason_with("register-runout", "bar_sag", nullptr), Reason::bar_sag_not_measured);
  EXPECT_EQ(reason_with("seat-squareness", "held_toward", nullptr), Reason::shaft_not_held);
}

TEST(SweepReading, AMotorStoodShaftUpNeedsNoSag) {
  json document = demo("greenhouse-circulator");
  document["make_up"]["driver"]["stands"] = "shaft-up";
  reading_of(document, "register-runout")["sweep"].erase("bar_sag");
  EXPECT_EQ(judge_document(document).of("register-runout").verdict, Verdict::pass);
}

TEST(SweepReading, TheTirThatWasReadIsJudgedAndASuspectIsNamedNotDropped) {
  json document = demo("greenhouse-circulator");
  auto& points = reading_of(document, "impeller-sweep")["sweep"]["points"];
  points[4]["reading"] = "+14";
  const auto finding = judge_document(document).of("impeller-sweep");
  EXPECT_EQ(finding.verdict, Verdict::fail);
  ASSERT_EQ(finding.readings[0].sweep->suspects.size(), 1U);
  EXPECT_EQ(finding.readings[0].sweep->suspects[0].index, 4U);
  bool named = false;
  for (const auto& remark : finding.readings[0].remarks)
    named = named || remark.en.find("+14") != std::string::npos;
  EXPECT_TRUE(named);
}

TEST(SweepReading, EccentricityIsJudgedFromTheSameReadingButByItsOwnLimit) {
  const auto judged = judge_document(demo("greenhouse-circulator"));
  const double tir = judged.of("impeller-sweep").readings[0].value->si();
  const double eccentricity = judged.of("impeller-eccentricity").readings[0].value->si();
  EXPECT_GT(tir, 1.7 * eccentricity);
  EXPECT_LT(tir, 2.9 * eccentricity);
  EXPECT_EQ(judged.of("impeller-eccentricity").readings[0].reading_id,
            judged.of("impeller-sweep").readings[0].reading_id);
}

TEST(SweepReading, TwoIndicatorsSeparateTiltFromFloat) {
  json document = demo("greenhouse-circulator");
  auto& sweep = reading_of(document, "seat-squareness")["sweep"];
  sweep.erase("held_toward");
  for (auto& p : sweep["points"]) {
    const double tilt = 0.4 * std::cos(p["angle_deg"].get<double>() * 3.14159265358979 / 180);
    const double move = p["angle_deg"].get<double>() / 100;
    p["reading"] = std::to_string(move + tilt);
    p["opposite"] = std::to_string(move - tilt);
  }
  const auto finding = judge_document(document).of("seat-squareness");
  EXPECT_EQ(finding.verdict, Verdict::pass);
  // Tilt amplitude 0.4 thou at radius 0.75 in: over the 1.625 in seat 2·0.4·(1.625/2)/0.75 thou.
  EXPECT_NEAR(finding.readings[0].value->si(), 0.8 * 0.8125 / 0.75 * 25.4e-6, 1e-8);
}

}  // namespace
}  // namespace pumpwright::job

#include "job/plan_generator.h"

#include <gtest/gtest.h>

#include "job/plan_json.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::refusal;

Plan plan_for(const json& make_up, std::vector<LimitOverride> overrides = {}) {
  const MakeUp m =
      complete_from_catalog(decode_make_up(JsonReader::parse(make_up.dump())), testing::catalog());
  return generate_plan(m, load_step_texts(testing::step_files()), testing::catalog(), overrides);
}

TEST(Plan, TheSameMakeUpGivesTheSamePlan) {
  const json make_up = demo("greenhouse-circulator")["make_up"];
  EXPECT_EQ(encode_plan(plan_for(make_up)).dump(), encode_plan(plan_for(make_up)).dump());
}

TEST(Plan, EveryCombinationOfMakeUpGivesAPlanWithUniqueIdsAndTextsInBothLanguages) {
  int plans = 0;
  for (const char* base : {"greenhouse-circulator", "orchard-wash"})
    for (const char* sleeve : {"fitted", "none"})
      for (const char* seal : {"elastomer-bellows", "o-ring-pusher", "conical-spring"})
        for (const bool fastener : {true, false})
          for (const bool with_dimensions : {true, false}) {
            json make_up = demo(base)["make_up"];
            make_up["sleeve"] = sleeve;
            make_up["seal"]["kind"] = seal;
            if (!fastener) make_up["impeller"].erase("fastener");
            if (!with_dimensions) make_up.erase("dimensions");
            const Plan plan = plan_for(make_up);
            ++plans;
            EXPECT_GE(plan.steps.size(), 12U);
            for (const auto& step : plan.steps) {
              EXPECT_FALSE(step.title.es.empty());
              for (const auto& check : step.checks)
                EXPECT_FALSE(check.if_it_fails.es.empty()) << check.id;
            }
          }
  EXPECT_EQ(plans, 48);
}

TEST(Plan, TheSleeveDecidesWhichPartsMakeTheWorkingLength) {
  json make_up = demo("greenhouse-circulator")["make_up"];
  EXPECT_EQ(plan_for(make_up).find("working-length")->chain.size(), 4U);
  make_up["sleeve"] = "none";
  const Plan without = plan_for(make_up);
  EXPECT_EQ(without.find("working-length")->chain.size(), 3U);
  EXPECT_EQ(without.find("sleeve-runout"), nullptr);
}

TEST(Plan, AHotPumpGetsItsCaution) {
  json make_up = demo("greenhouse-circulator")["make_up"];
  EXPECT_NE(plan_for(make_up).step("hot-parts"), nullptr);
  make_up["service"]["temperature"] = "20 degC";
  EXPECT_EQ(plan_for(make_up).step("hot-parts"), nullptr);
}

TEST(Plan, StagesComeInTheOrderOfWork) {
  const Plan plan = plan_for(demo("greenhouse-circulator")["make_up"]);
  for (std::size_t i = 1; i < plan.steps.size(); ++i)
    EXPECT_LE(plan.steps[i - 1].stage, plan.steps[i].stage);
}

TEST(Plan, InchAndMetricMotorsAreHeldToTheirOwnRunout) {
  const Check inch = *plan_for(demo("greenhouse-circulator")["make_up"]).find("shaft-runout");
  EXPECT_EQ(inch.limits.front().id, "runout-nema/small");
  EXPECT_NEAR(inch.limits.front().upper->si, 0.002 * 0.0254, 1e-12);
  const Check metric = *plan_for(demo("orchard-wash")["make_up"]).find("shaft-runout");
  EXPECT_EQ(metric.limits.front().id, "runout-iec/over-18-to-30-mm");
  EXPECT_NEAR(metric.limits.front().upper->si, 40e-6, 1e-12);
}

TEST(Plan, AMetricShaftTakesItsLimitsFromTheToleranceClass) {
  const Check shaft = *plan_for(demo("orchard-wash")["make_up"]).find("shaft-diameter");
  ASSERT_FALSE(shaft.limits.empty());  // 28 j6: +9/-4 um (ISO 286-2)
  EXPECT_NEAR(shaft.limits.front().lower->si, 27.996e-3, 1e-9);
  EXPECT_NEAR(shaft.limits.front().upper->si, 28.009e-3, 1e-9);
}

TEST(Plan, TheImpellerSweepIsSevenThouByCommonPracticeAndSaysSo) {
  const Limit limit =
      plan_for(demo("greenhouse-circulator")["make_up"]).find("impeller-sweep")->limits.front();
  EXPECT_EQ(limit.source.obtained, Obtained::common_practice);
  EXPECT_NEAR(limit.upper->si, 7 * 25.4e-6, 1e-15);
}

TEST(Plan, AnOverrideGoesBeforeTheStandardAndTheStandardStaysVisible) {
  LimitOverride tighter;
  tighter.check = "shaft-runout";
  tighter.limit.id = "shaft-runout/job";
  tighter.limit.rank = Rank::job;
  tighter.upper_text = "1 thou";
  const Check check = *plan_for(demo("greenhouse-circulator")["make_up"], {tighter}).find("shaft-runout");
  EXPECT_EQ(check.limits.front().rank, Rank::job);
  EXPECT_GE(check.limits.size(), 2U);
  EXPECT_EQ(check.limits[1].id, "runout-nema/small");
}

TEST(Plan, AnOverrideInTheWrongUnitOrOfNoCheckIsRefusedAtItsPlace) {
  LimitOverride wrong;
  wrong.check = "shaft-runout";
  wrong.upper_text = "40 degC";
  wrong.place = "/limits/0";
  const json make_up = demo("greenhouse-circulator")["make_up"];
  EXPECT_NE(refusal([&] { plan_for(make_up, {wrong}); }).find("/limits/0/upper"), std::string::npos);
  wrong.check = "shaft-colour";
  EXPECT_NE(refusal([&] { plan_for(make_up, {wrong}); }).find("/limits/0/check"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::job

#include "engine/hydraulics/trim.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/metrology/quantiles.h"
#include "tests/support/given_pump.h"
#include "tests/support/refused.h"

namespace pumpwright::hydraulics {
namespace {

using testing::measured_test;

const Impeller impeller{metres(0.2), metres(0.1), {}};
// The pump gives 30 m at 0.01 m³/s; 28 m are wanted.
const Duty duty{cubic_metres_per_second(0.01), metres(28)};

TEST(CutRule, TheTwoRulesDiffer) {
  EXPECT_NEAR(flow_factor(CutRule::affinity, impeller, metres(0.192)), 0.96, 1e-12);
  EXPECT_NEAR(flow_factor(CutRule::reduced_diameter, impeller, metres(0.192)), 0.946291, 5e-7);
}

TEST(CutRule, TheDiameterLeadsBackToItsFactor) {
  for (const CutRule rule : {CutRule::affinity, CutRule::reduced_diameter})
    for (const double d : {0.2, 0.19, 0.15})
      EXPECT_NEAR(diameter_for(rule, impeller, flow_factor(rule, impeller, metres(d))).value(), d, 1e-15);
}

TEST(CutRule, WhatARuleCanNotSayIsRefused) {
  const auto refused = [](CutRule rule, Impeller i, double d) {
    return testing::refused_field([&] { (void)flow_factor(rule, i, metres(d)); });
  };
  EXPECT_EQ(refused(CutRule::reduced_diameter, {metres(0.2), {}, {}}, 0.19), "inlet_diameter");
  EXPECT_EQ(refused(CutRule::reduced_diameter, impeller, 0.1), "diameter");
  EXPECT_EQ(refused(CutRule::affinity, impeller, 0.201), "diameter");
}

// R² (40 - 1e5 (Q/R)²) = 40 R² - 1e5 Q² = 28: R² = 38/40.
TEST(Trim, TheNominalCutMeetsTheDutyByItsRule) {
  const PerformanceModel model(testing::given_test());
  const TrimPlan plan = plan_trim(model, duty, impeller, {});
  ASSERT_TRUE(plan.nominal);
  EXPECT_NEAR(plan.nominal->factor, std::sqrt(38.0 / 40), 1e-9);
  EXPECT_NEAR(plan.nominal->diameter.value(), 0.2 * std::sqrt(38.0 / 40), 1e-9);
  EXPECT_NEAR(plan.nominal->head_m.value, 28, 1e-6);
  EXPECT_NEAR(plan.nominal->undershoot, 0.5, 1e-4);
  EXPECT_EQ(plan.range, RuleRange::inside);
  EXPECT_NEAR(*plan.nominal->power_w,
              std::pow(plan.nominal->factor, 3) * testing::given_power_w(0.01 / plan.nominal->factor), 1e-3);
  ASSERT_TRUE(plan.other_rule_diameter);
  EXPECT_GT(*plan.other_rule_diameter, plan.nominal->diameter);
}

TEST(Trim, TheFirstCutHasTheStatedChanceAndTakesLess) {
  const PerformanceModel model(measured_test());
  const TrimPlan plan = plan_trim(model, duty, impeller, {.undershoot = 0.05});
  ASSERT_TRUE(plan.first);
  EXPECT_GT(plan.first->diameter, plan.nominal->diameter);
  EXPECT_LT(plan.first->diameter, impeller.diameter);
  EXPECT_NEAR(plan.first->undershoot, 0.05, 1e-6);
  // u of the head there is what the quantile says
  EXPECT_NEAR((plan.first->head_m.value - 28) / plan.first->head_m.u,
              student_quantile(0.95, plan.first->head_m.dof), 1e-4);
}

TEST(Trim, NoCutIsSafeWhenTheDutyIsMissedAsItStands) {
  const PerformanceModel model(measured_test(0.96));
  const TrimPlan plan = plan_trim(model, {cubic_metres_per_second(0.01), metres(30)}, impeller, {});
  EXPECT_FALSE(plan.nominal);
  EXPECT_FALSE(plan.first);
  EXPECT_GT(plan.undershoot_now, 0.99);
}

TEST(Trim, ADutyJustMetLeavesNoSafeCut) {
  const PerformanceModel model(measured_test());
  const TrimPlan plan = plan_trim(model, {cubic_metres_per_second(0.01), metres(29.95)}, impeller, {});
  EXPECT_TRUE(plan.nominal);
  EXPECT_FALSE(plan.first);
}

TEST(Trim, SaysWhereTheRuleEnds) {
  const PerformanceModel model(testing::given_test());
  const Duty low{cubic_metres_per_second(0.01), metres(22)};  // R² = 0.8: 10.6 % of diameter
  EXPECT_EQ(plan_trim(model, low, impeller, {}).range, RuleRange::inside);
  EXPECT_EQ(plan_trim(model, low, impeller, {.rule = CutRule::reduced_diameter}).range,
            RuleRange::cut_too_deep);
  EXPECT_EQ(plan_trim(model, low, {metres(0.2), {}, metres(0.185)}, {}).range,
            RuleRange::below_least_diameter);
}

// Cut or slow down, the factor is the same.
TEST(Trim, TheFactorIsAlsoThatOfTheSpeed) {
  const PerformanceModel model(testing::given_test(0.96));
  // 38.4 R² - 0.96e5 Q² = 30
  EXPECT_NEAR(*factor_to_meet(model.curves().head, 0.01, 30), std::sqrt((30 + 9.6) / 38.4), 1e-9);
  EXPECT_FALSE(factor_to_meet(model.curves().head, 0.01, 300));
}

TEST(Trim, SettingsOutsideTheirRangeAreNamed) {
  const PerformanceModel model(testing::given_test());
  const auto refused = [&](const Duty& d, const Impeller& i, const CutSettings& s) {
    return testing::refused_field([&] { (void)plan_trim(model, d, i, s); });
  };
  EXPECT_EQ(refused(duty, impeller, {.rule_doubt = 1.5}), "rule_doubt");
  EXPECT_EQ(refused(duty, impeller, {.undershoot = 0.5}), "undershoot");
  EXPECT_EQ(refused(duty, impeller, {.lathe = metres(-1)}), "lathe");
  EXPECT_EQ(refused(duty, {metres(0.2), metres(0.2), {}}, {}), "inlet_diameter");
  EXPECT_EQ(refused(duty, {metres(0.2), {}, metres(0.21)}, {}), "least_diameter");
  EXPECT_EQ(refused({cubic_metres_per_second(0.02), metres(20)}, impeller, {}), "flow");
}

}  // namespace
}  // namespace pumpwright::hydraulics

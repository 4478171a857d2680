#include "job/job_state.h"

#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

Plan small_plan() {
  Plan plan;
  Step step;
  step.id = "sweep";
  step.hold = true;
  Check sweep;
  sweep.id = "a-sweep";
  sweep.kind = CheckKind::sweep;
  Check seen;
  seen.id = "seen";
  seen.kind = CheckKind::confirmation;
  Check derived;
  derived.id = "derived";
  derived.kind = CheckKind::sweep;
  derived.from = "a-sweep";
  step.checks = {sweep, seen, derived};
  plan.steps = {step};
  return plan;
}

Event confirmation(const std::string& id, std::optional<std::string> replaces = {},
                   const std::string& check = "seen") {
  Reading r;
  r.id = id;
  r.check = check;
  r.replaces = std::move(replaces);
  r.body = Confirmation{true, ""};
  return ReadingTaken{r};
}

std::string refusal_of(std::vector<Event> events) {
  return testing::refusal([&] { fold(small_plan(), events); });
}

TEST(Fold, ACorrectedReadingReplacesTheOneItNamesAndBothAreKept) {
  const std::vector<Event> events{confirmation("r1"), confirmation("r2", "r1")};
  const JobState state = fold(small_plan(), events);
  ASSERT_EQ(state.standing.at("seen").size(), 1U);
  EXPECT_EQ(state.standing.at("seen")[0].id, "r2");
  ASSERT_EQ(state.replaced.size(), 1U);
  EXPECT_EQ(state.replaced[0].id, "r1");
}

TEST(Fold, TwoReadingsOfOneCheckBothStand) {
  const std::vector<Event> events{confirmation("r1"), confirmation("r2")};
  EXPECT_EQ(fold(small_plan(), events).standing.at("seen").size(), 2U);
}

TEST(Fold, TwoCorrectionsOfOneReadingBothStand) {
  const std::vector<Event> events{confirmation("r1"), confirmation("r2", "r1"), confirmation("r3", "r1")};
  const JobState state = fold(small_plan(), events);
  ASSERT_EQ(state.standing.at("seen").size(), 2U);
  EXPECT_EQ(state.standing.at("seen")[1].id, "r3");
  EXPECT_EQ(state.replaced.size(), 1U);
}

TEST(Fold, ARefusedEventLeavesTheStateAsItWas) {
  JobFold fold;
  const Plan plan = small_plan();
  fold.apply(plan, confirmation("r1"));
  EXPECT_THROW(fold.apply(plan, confirmation("r2", "r9")), BadInput);
  EXPECT_NO_THROW(fold.apply(plan, confirmation("r2", "r1")));
  EXPECT_EQ(fold.state().standing.at("seen").size(), 1U);
}

TEST(Fold, RefusesWhatDoesNotFitThePlanAndNamesTheEvent) {
  EXPECT_NE(refusal_of({confirmation("r1", {}, "nowhere")}).find("/events/0"), std::string::npos);
  EXPECT_NE(refusal_of({confirmation("r1"), confirmation("r1")}).find("/events/1"), std::string::npos);
  EXPECT_NE(refusal_of({confirmation("r1"), confirmation("r2", "r9")}).find("r9"), std::string::npos);
  EXPECT_NE(refusal_of({confirmation("r1", {}, "a-sweep")}).find("a sweep"), std::string::npos);
  EXPECT_NE(refusal_of({confirmation("r1", {}, "derived")}).find("judged from another"), std::string::npos);
  EXPECT_NE(refusal_of({StepDone{"nothing", {}, "J.M."}}).find("nothing"), std::string::npos);
}

TEST(Fold, AHoldPointIsReleasedByAnotherPersonAfterTheStep) {
  EXPECT_NE(refusal_of({HoldReleased{"sweep", {}, "L.H."}}).find("done before"), std::string::npos);
  EXPECT_NE(
      refusal_of({StepDone{"sweep", {}, "J.M."}, HoldReleased{"sweep", {}, "J.M."}}).find("another person"),
      std::string::npos);
  EXPECT_EQ(refusal_of({StepDone{"sweep", {}, "J.M."}, HoldReleased{"sweep", {}, "L.H."}}), "");
}

TEST(Fold, ADeviationNeedsAReason) {
  EXPECT_NE(refusal_of({DeviationAccepted{"seen", "", {}, "L.H."}}).find("reason"), std::string::npos);
  EXPECT_EQ(refusal_of({DeviationAccepted{"seen", "customer agreed", {}, "L.H."}}), "");
}

}  // namespace
}  // namespace pumpwright::job

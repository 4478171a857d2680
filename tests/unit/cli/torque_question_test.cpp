#include "cli/torque_question.h"

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

// M10 x 1.5: stress area 57.99 mm²; proof stress 580 MPa gives a proof load of 33.63 kN.
TorqueQuestion question(Obtained strength) {
  TorqueQuestion q;
  q.thread_name = "M10";
  q.thread = {.form = ThreadForm::iso_metric, .diameter = metres(0.010), .pitch = metres(0.0015)};
  q.proof_stress = pascals(580e6);
  q.nut_factor = {.lowest = 0.1, .highest = 0.2};
  q.numbers.push_back(
      {.what = "proof stress",
       .value = "580 MPa",
       .source = Source{.document = "d", .edition = "", .clause = "", .obtained = strength, .note = ""}});
  return q;
}

TorqueFinding with_torque(double torque_nm, Obtained strength = Obtained::read) {
  auto q = question(strength);
  q.torque = AppliedTorque{.set = newton_metres(torque_nm), .wrench_error = 0};
  return answer(q);
}

TEST(TorqueVerdict, PassesWhenTheProofLoadIsKeptToWhateverTheFriction) {
  const auto f = with_torque(30);
  EXPECT_NEAR(f.preload.largest.value(), 30e3, 1e-6);
  EXPECT_NEAR(f.preload.smallest.value(), 15e3, 1e-6);
  EXPECT_EQ(f.verdict, "pass");
}

TEST(TorqueVerdict, IsUnprovenWhenFrictionDecides) {
  const auto f = with_torque(50);
  EXPECT_EQ(f.verdict, "unproven");
  EXPECT_EQ(f.reason, "friction-decides");
}

TEST(TorqueVerdict, FailsWhenTheProofLoadIsExceededWhateverTheFriction) {
  EXPECT_EQ(with_torque(80).verdict, "fail");
}

TEST(TorqueVerdict, NeverRestsOnAStrengthThatIsOnlyRemembered) {
  const auto f = with_torque(30, Obtained::remembered);
  EXPECT_EQ(f.verdict, "unproven");
  EXPECT_EQ(f.reason, "strength-unconfirmed");
}

TEST(TorqueAnswer, GivesTheTorqueRangeForAShareOfTheProofLoad) {
  auto q = question(Obtained::read);
  q.proof_share = 0.75;
  const auto f = answer(q);
  EXPECT_NEAR(f.preload.largest.value(), 0.75 * f.proof_load.value(), 1e-6);
  EXPECT_NEAR(f.torque_least.value(), 0.1 * 0.010 * f.preload.largest.value(), 1e-9);
  EXPECT_NEAR(f.torque_most.value(), 0.2 * 0.010 * f.preload.largest.value(), 1e-9);
  EXPECT_NEAR(f.share.largest, 0.75, 1e-12);
}

}  // namespace
}  // namespace pumpwright

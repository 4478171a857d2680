#include "engine/rotor/balance_verdict.h"

#include <gtest/gtest.h>

namespace pumpwright::rotor {
namespace {

UnbalanceEstimate estimate(double g_mm, double u_g_mm) {
  UnbalanceEstimate e;
  e.value = {g_mm * 1e-6, 0};
  const double c = u_g_mm * u_g_mm * 1e-12;
  e.covariance = {c, 0, 0, c};
  return e;
}

constexpr Unbalance limit = kilogram_metres(100e-6);

TEST(BalanceVerdict, TheGuardBandDecides) {
  const auto pass = judge_unbalance(estimate(80, 10), limit, true);
  EXPECT_EQ(pass.outcome, Outcome::pass);
  EXPECT_NEAR(pass.guard->value(), 16.449e-6, 1e-9);
  EXPECT_EQ(judge_unbalance(estimate(120, 10), limit, true).outcome, Outcome::fail);
  const auto between = judge_unbalance(estimate(90, 10), limit, true);
  EXPECT_EQ(between.outcome, Outcome::unproven);
  EXPECT_EQ(between.reason, "limit-in-uncertainty");
}

TEST(BalanceVerdict, WithoutAnUncertaintyOrWithPlanesMuddledNothingIsProven) {
  UnbalanceEstimate bare;
  bare.value = {1e-9, 0};
  EXPECT_EQ(judge_unbalance(bare, limit, true).reason, "uncertainty-not-known");
  EXPECT_EQ(judge_unbalance(bare, limit, true).outcome, Outcome::unproven);
  EXPECT_EQ(judge_unbalance(estimate(1, 1), limit, false).reason, "planes-not-told-apart");
}

TEST(BalanceVerdict, DoubtIsTakenAlongTheVectorUnlessZeroMayBeTheTruth) {
  UnbalanceEstimate e;
  e.value = {0, 100e-6};
  e.covariance = {400e-12, 0, 0, 25e-12};
  EXPECT_NEAR(e.amount_u()->value(), 5e-6, 1e-15);
  e.value = {0, 3e-6};
  EXPECT_NEAR(e.amount_u()->value(), 20e-6, 1e-15);
}

}  // namespace
}  // namespace pumpwright::rotor

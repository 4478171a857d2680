#include "engine/hydraulics/npsh.h"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "tests/support/given_liquid.h"
#include "tests/support/refused.h"

namespace pumpwright::hydraulics {
namespace {

std::vector<SuppressionPoint> run_of(const std::vector<std::pair<double, double>>& points) {
  std::vector<SuppressionPoint> run;
  for (const auto& [npsh, head] : points)
    run.push_back({metres(npsh), metres(head)});
  return run;
}

// Full head 30 m of the two highest; 97 % is 29.1 m, half-way between 29.6 m at 3 m and 28.6 m at 2.5 m.
const auto run = run_of({{6, 30.1}, {2.5, 28.6}, {5, 29.9}, {3, 29.6}, {4, 29.9}, {2, 25}});

TEST(Npsh3, LiesBetweenThePointsAroundTheDrop) {
  const auto found = npsh3_of(run, 2, {metres(0), metres(0)});
  EXPECT_NEAR(found.head_full_m, 30, 1e-12);
  EXPECT_NEAR(found.npsh_m.value, 2.75, 1e-12);
  EXPECT_EQ(found.npsh_m.u, 0);
  EXPECT_EQ(found.next_below_m, 2.5);
  EXPECT_EQ(found.next_above_m, 3);
}

// x = 2.5 + 0.5 (0.97 H0 - h1)/(h2 - h1): 0.485 (half each) for H0, -0.25 for h2, -0.25 for h1, per metre.
TEST(Npsh3, ItsUncertaintyIsThatOfTheHeadsInvolved) {
  const auto found = npsh3_of(run, 2, {metres(0.05), metres(0.1)});
  const double c2 = 2 * std::pow(0.485 / 2, 2) + 0.25 * 0.25 + 0.25 * 0.25;
  EXPECT_NEAR(found.npsh_m.u, std::sqrt(0.05 * 0.05 + c2 * 0.01), 1e-6);
}

TEST(Npsh3, ARunThatNeverDropsOrHasNoPlateauIsRefused) {
  const auto refused = [](const std::vector<SuppressionPoint>& points, std::size_t plateau) {
    return testing::refused_field([&] { (void)npsh3_of(points, plateau, {metres(0), metres(0)}); });
  };
  EXPECT_EQ(refused(run_of({{6, 30}, {5, 30}, {4, 29.9}}), 2), "head");
  EXPECT_EQ(refused(run, 6), "plateau");
  EXPECT_EQ(refused(run, 1), "plateau");
  EXPECT_EQ(refused(run, 5), "head");  // the fifth lies 3 % under the mean
  EXPECT_EQ(refused(run_of({{6, 30}, {5, 28}}), 2), "points");
  EXPECT_EQ(refused(run_of({{6, 30}, {6, 30}, {4, 20}}), 2), "npsh");
}

TEST(NpshAvailable, AddsLevelAndTakesLossAndVapour) {
  const testing::GivenLiquid liquid;  // boils at 101325 Pa at 373.15 K
  const Temperature boiling = kelvin(373.15);
  EXPECT_NEAR(npsh_available({{pascals(101325)}, metres(3), metres(0.5), boiling}, liquid).value(), 2.5,
              1e-9);
  EXPECT_NEAR(npsh_available({{pascals(101325 + 9806.65)}, metres(-3), metres(0.5), boiling}, liquid).value(),
              -2.5, 1e-9);
  EXPECT_EQ(testing::refused_field([&] {
              (void)npsh_available({{pascals(101325)}, metres(0), metres(-1), boiling}, liquid);
            }),
            "loss");
}

TEST(NpshAtSpeed, GoesWithAPowerOfTheSpeed) {
  EXPECT_NEAR(npsh_at_speed(metres(3), 1.1).value(), 3.63, 1e-12);
  EXPECT_EQ(testing::refused_field([] { (void)npsh_at_speed(metres(3), 1.1, 1.2); }), "exponent");
}

}  // namespace
}  // namespace pumpwright::hydraulics

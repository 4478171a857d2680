#include "engine/vibration/severity.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright::vibration {
namespace {

constexpr auto mm_s = [](double v) { return Velocity::from_value(v / 1000); };
constexpr auto kw = [](double v) { return Power::from_value(v * 1000); };

TEST(Zones, RiseWithTheVelocity) {
  const auto limits = zone_limits(PumpCategory::two, kw(7.5));
  EXPECT_EQ(zone_of(mm_s(1), limits), Zone::a);
  EXPECT_EQ(zone_of(limits.a_to_b, limits), Zone::a);
  EXPECT_EQ(zone_of(mm_s(4), limits), Zone::b);
  EXPECT_EQ(zone_of(mm_s(7), limits), Zone::c);
  EXPECT_EQ(word_for(zone_of(mm_s(20), limits)), "D");
}

TEST(Zones, MoreIsAskedOfCategoryOneAndLessOfLargePumps) {
  for (const double power : {7.5, 500.0})
    EXPECT_LT(zone_limits(PumpCategory::one, kw(power)).b_to_c,
              zone_limits(PumpCategory::two, kw(power)).b_to_c);
  EXPECT_LT(zone_limits(PumpCategory::one, kw(200)).b_to_c, zone_limits(PumpCategory::one, kw(201)).b_to_c);
  EXPECT_THROW((void)zone_limits(PumpCategory::one, kw(1)), BadInput);
}

}  // namespace
}  // namespace pumpwright::vibration

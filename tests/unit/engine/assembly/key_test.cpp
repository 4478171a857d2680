#include "engine/assembly/key.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr double inch = 0.0254;

bool has(const KeyLengthCheck& check, KeyLengthFault fault) {
  return std::find(check.faults.begin(), check.faults.end(), fault) != check.faults.end();
}

// An impeller hub 40 mm long on a shaft, its through keyway from 5 mm to 45 mm; a sleeve behind it with a 6
// mm slot.
KeyPlace impeller_and_sleeve(double key_mm) {
  KeyPlace place;
  place.key_length = metres(key_mm / 1000);
  place.seat_start = metres(0);
  place.seat_end = metres(0.060);
  place.hub_outer_face = metres(0.005);
  place.hub_keyway_end = metres(0.045);
  place.sleeve_face = metres(0.045);
  place.sleeve_slot = metres(0.006);
  place.end_gap = metres(0.001);
  return place;
}

TEST(Key, StepsIncludeTheirUpperEndAfterConversion) {
  EXPECT_NEAR(key_for_shaft(metres(0.875 * inch), KeySystem::inch_square).width.value(), 3. / 16 * inch,
              1e-12);
  EXPECT_NEAR(key_for_shaft(metres(0.876 * inch), KeySystem::inch_square).width.value(), 1. / 4 * inch,
              1e-12);
  EXPECT_NEAR(key_for_shaft(metres(1.25 * inch), KeySystem::inch_square).width.value(), 1. / 4 * inch, 1e-12);
  EXPECT_NEAR(key_for_shaft(metres(0.030), KeySystem::metric).width.value(), 0.008, 1e-12);
  EXPECT_NEAR(key_for_shaft(metres(0.0301), KeySystem::metric).width.value(), 0.010, 1e-12);
}

TEST(Key, StepsJoinWithoutGaps) {
  for (const KeySystem system : {KeySystem::inch_square, KeySystem::inch_rectangular, KeySystem::metric}) {
    const auto keys = all_keys(system);
    for (std::size_t i = 1; i < keys.size(); ++i)
      EXPECT_NEAR(keys[i].over.value(), keys[i - 1].to.value(), 1e-12);
  }
}

TEST(Key, RefusesShaftsOutsideTheTableSayingWhichItHolds) {
  EXPECT_THROW(key_for_shaft(metres(0.006), KeySystem::metric), BadInput);
  EXPECT_THROW(key_for_shaft(metres(std::nan("")), KeySystem::metric), BadInput);
  EXPECT_THROW(key_for_shaft(metres(0.4 * inch), KeySystem::inch_rectangular), BadInput);
  try {
    key_for_shaft(metres(4 * inch), KeySystem::inch_square);
    FAIL();
  } catch (const BadInput& e) {
    EXPECT_EQ(e.what_was_wrong().expected, "over 0.3125 in up to 3.25 in");
  }
}

TEST(Key, MetricDepthsRunFromTheSurfaceLineAndLeaveRoomOverTheKey) {
  for (const KeySection& key : all_keys(KeySystem::metric)) {
    const DepthControl depth = depth_control(key, key.to);
    EXPECT_NEAR((key.to - depth.seat_bottom_to_far_side).value(), key.shaft_depth.value(), 1e-15);
    EXPECT_NEAR((depth.keyway_bottom_to_far_side - key.to).value(), key.hub_depth.value(), 1e-15);
    const double room_mm = (key.shaft_depth + key.hub_depth - key.height).value() * 1000;
    EXPECT_GE(room_mm, 0.2 - 1e-9);
    EXPECT_LE(room_mm, 0.4 + 1e-9);
  }
}

TEST(Key, TolerancesAreHeldWhereTheyAreKnown) {
  const KeyTolerances small = key_tolerances(key_for_shaft(metres(0.875 * inch), KeySystem::inch_square));
  ASSERT_TRUE(small.seat_width && small.key_width && small.seat_depth && small.keyway_depth);
  EXPECT_FALSE(small.keyway_width);
  EXPECT_NEAR(small.seat_width->upper.value(), 0.002 * inch, 1e-12);
  EXPECT_NEAR(small.seat_depth->lower.value(), -0.015 * inch, 1e-12);
  const KeyTolerances wide = key_tolerances(key_for_shaft(metres(3 * inch), KeySystem::inch_square));
  EXPECT_FALSE(wide.key_width);
  EXPECT_NEAR(wide.seat_width->upper.value(), 0.003 * inch, 1e-12);
  const KeyTolerances metric = key_tolerances(key_for_shaft(metres(0.024), KeySystem::metric));
  EXPECT_NEAR(metric.seat_width->lower.value(), -36e-6, 1e-12);
  EXPECT_NEAR(metric.seat_width->upper.value(), 0, 1e-12);
  EXPECT_NEAR(metric.keyway_width->upper.value(), 18e-6, 1e-12);
  EXPECT_EQ(metric.how, HowKnown::remembered);
}

TEST(KeyLength, AKeyThatFillsTheHubAndStaysInTheSlotFits) {
  const KeyLengthCheck check = check_key_length(impeller_and_sleeve(42), 0.85);
  EXPECT_TRUE(check.faults.empty());
  EXPECT_NEAR(check.engagement_min.value(), 0.037, 1e-12);  // slid inwards to 50 mm, it covers 8 to 45 mm
  ASSERT_TRUE(check.shortest_good && check.longest_good);
  EXPECT_NEAR(check.shortest_good->value(), 0.039, 1e-12);
  EXPECT_NEAR(check.longest_good->value(), 0.044, 1e-12);
}

TEST(KeyLength, AKeyThatReachesTheBottomOfTheSlotHoldsTheSleeveOff) {
  const KeyLengthCheck check = check_key_length(impeller_and_sleeve(48), 0.85);
  EXPECT_TRUE(has(check, KeyLengthFault::holds_sleeve_off));
  EXPECT_FALSE(has(check, KeyLengthFault::longer_than_seat));
}

TEST(KeyLength, WithoutASlotTheSleeveStopsTheKeyAtItsFace) {
  KeyPlace place = impeller_and_sleeve(39);
  place.sleeve_slot = metres(0);
  place.seat_start = metres(0.006);
  EXPECT_TRUE(has(check_key_length(place, 0.85), KeyLengthFault::holds_sleeve_off));
  place.key_length = metres(0.037);
  EXPECT_TRUE(check_key_length(place, 0.85).faults.empty());
}

TEST(KeyLength, ABlindKeywayStopsTheKeyBeforeTheSleeve) {
  KeyPlace place = impeller_and_sleeve(36);
  place.hub_keyway_end = metres(0.040);
  const KeyLengthCheck check = check_key_length(place, 0.85);
  EXPECT_TRUE(has(check, KeyLengthFault::holds_hub_off));
  EXPECT_FALSE(has(check, KeyLengthFault::holds_sleeve_off));
}

TEST(KeyLength, AKeyThatStandsPastTheHubHoldsTheWasherOff) {
  KeyPlace place = impeller_and_sleeve(45);
  place.seat_end = metres(0.046);  // the seat ends before the sleeve's slot does
  const KeyLengthCheck check = check_key_length(place, 0.85);
  EXPECT_TRUE(has(check, KeyLengthFault::holds_washer_off));
  EXPECT_FALSE(has(check, KeyLengthFault::holds_sleeve_off));
}

TEST(KeyLength, AShortKeyEngagesTooLittleAndALongOneDoesNotLieDown) {
  EXPECT_TRUE(has(check_key_length(impeller_and_sleeve(20), 0.85), KeyLengthFault::engages_too_little));
  EXPECT_TRUE(has(check_key_length(impeller_and_sleeve(61), 0.85), KeyLengthFault::longer_than_seat));
  EXPECT_STREQ(word_for(KeyLengthFault::engages_too_little), "engages too little of the hub");
}

TEST(KeyLength, SaysWhenNoLengthWouldFit) {
  KeyPlace place = impeller_and_sleeve(20);
  place.seat_end = metres(0.025);
  const KeyLengthCheck check = check_key_length(place, 0.85);
  EXPECT_FALSE(check.shortest_good);
  EXPECT_FALSE(check.longest_good);
}

TEST(KeyLength, RefusesPlacesOutOfOrder) {
  KeyPlace place = impeller_and_sleeve(42);
  place.seat_end = metres(0);
  EXPECT_THROW(check_key_length(place, 0.85), BadInput);
  place = impeller_and_sleeve(42);
  place.sleeve_face = metres(0.03);
  EXPECT_THROW(check_key_length(place, 0.85), BadInput);
  place = impeller_and_sleeve(0);
  EXPECT_THROW(check_key_length(place, 0.85), BadInput);
  EXPECT_THROW(check_key_length(impeller_and_sleeve(42), 0), BadInput);
  EXPECT_THROW(check_key_length(impeller_and_sleeve(42), 1.1), BadInput);
}

TEST(KeyLoad, SharesTheForceOverItsSides) {
  const KeySection key = key_for_shaft(metres(0.024), KeySystem::metric);  // 8 x 7, t1 4
  const KeyLoad load = key_load(key, metres(0.024), metres(0.030), KeyEnds::square, newton_metres(60));
  EXPECT_NEAR(load.tangential.value(), 5000, 1e-9);
  EXPECT_NEAR(load.shear.value(), 5000 / (0.008 * 0.030), 1e-3);
  EXPECT_NEAR(load.bearing_shaft.value(), 5000 / (0.004 * 0.030), 1e-3);
  EXPECT_NEAR(load.bearing_hub.value(), 5000 / (0.003 * 0.030), 1e-3);
  const KeyLoad round = key_load(key, metres(0.024), metres(0.030), KeyEnds::round, newton_metres(60));
  EXPECT_NEAR(round.shear.value(), 5000 / (0.008 * 0.022), 1e-3);
  EXPECT_THROW(key_load(key, metres(0.024), metres(0.008), KeyEnds::round, newton_metres(60)), BadInput);
  EXPECT_THROW(key_load(key, metres(0.024), metres(0.030), KeyEnds::square, newton_metres(-1)), BadInput);
}

}  // namespace
}  // namespace pumpwright

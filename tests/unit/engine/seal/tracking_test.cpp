#include "engine/seal/tracking.h"

#include <gtest/gtest.h>

#include "tests/support/given_seal.h"
#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

TrackingCase given() {
  TrackingCase c;
  c.style = HeadStyle::stationary;
  c.seat = {Tir{metres(0.05e-3)}, metres(0.004e-3)};
  c.swept_diameter = metres(0.060);
  c.faces = testing::given_faces();
  c.speed = radians_per_second(370);
  c.ring = kilograms(0.04);
  c.spring = newtons(90);
  c.seal_drag = newtons(15);
  return c;
}

TEST(Tracking, AStationaryHeadNeedsForceATurningOneOnlyStroke) {
  TrackingCase c = given();
  const Tracking stationary = tracking(c);
  c.style = HeadStyle::turning;
  const Tracking turning = tracking(c);
  EXPECT_GT(stationary.required.value(), 0);
  EXPECT_EQ(turning.required.value(), 0);
  EXPECT_EQ(turning.stroke, stationary.stroke);
  EXPECT_TRUE(turning.follows);
}

TEST(Tracking, RequiredForceGrowsWithTheSquareOfSpeed) {
  TrackingCase c = given();
  const double one_n = tracking(c).required.value();
  c.speed = 2.0 * c.speed;
  EXPECT_NEAR(tracking(c).required.value(), 4 * one_n, 1e-9);
}

TEST(Tracking, DragEatsTheSpring) {
  TrackingCase c = given();
  EXPECT_NEAR(tracking(c).available.value(), 75, 1e-12);
  EXPECT_TRUE(tracking(c).follows);
  c.seal_drag = newtons(95);
  EXPECT_EQ(tracking(c).available.value(), 0);
  EXPECT_FALSE(tracking(c).follows);
  c.style = HeadStyle::turning;
  EXPECT_FALSE(tracking(c).follows);
}

TEST(Tracking, AHeavyRingOnAFastCrookedSeatDoesNotFollow) {
  TrackingCase c = given();
  c.seat.value = Tir{metres(0.5e-3)};
  c.speed = radians_per_second(1000);
  c.ring = kilograms(0.5);
  EXPECT_FALSE(tracking(c).follows);
}

TEST(Tracking, AFastTurningHeadIsMarked) {
  TrackingCase c = given();
  c.style = HeadStyle::turning;
  EXPECT_FALSE(tracking(c).fast_for_turning_head);
  c.speed = radians_per_second(900);
  EXPECT_TRUE(tracking(c).fast_for_turning_head);
  c.style = HeadStyle::stationary;
  EXPECT_FALSE(tracking(c).fast_for_turning_head);
}

TEST(Tracking, ATrueSeatAsksNothing) {
  TrackingCase c = given();
  c.seat.value = Tir{metres(0)};
  const Tracking t = tracking(c);
  EXPECT_EQ(t.stroke.value(), 0);
  EXPECT_TRUE(t.follows);
}

TEST(Tracking, ImpossibleInputsAreNamed) {
  const auto field = [](auto change) {
    TrackingCase c = given();
    change(c);
    return testing::refused_field([&] { tracking(c); });
  };
  EXPECT_EQ(field([](auto& c) { c.seat.value = Tir{metres(0.02)}; }), "seat reading");
  EXPECT_EQ(field([](auto& c) { c.swept_diameter = metres(0); }), "swept diameter");
  EXPECT_EQ(field([](auto& c) { c.ring = kilograms(-1); }), "ring mass");
  EXPECT_EQ(field([](auto& c) { c.seal_drag = newtons(-1); }), "seal drag");
}

TEST(Overlap, EccentricitiesEatTheMarginsAndWidenTheTrack) {
  OverlapCase c{testing::given_faces(), metres(0.064), metres(0.047), {metres(0.2e-3)}, {metres(0.1e-3)}};
  const Overlap o = overlap(c);
  EXPECT_NEAR(o.outer_margin.value(), 0.9e-3, 1e-12);
  EXPECT_NEAR(o.inner_margin.value(), 0.65e-3, 1e-12);
  EXPECT_NEAR(o.track_width.value(), 6.35e-3 + 0.6e-3, 1e-12);
  EXPECT_TRUE(o.covers);
  c.ring = {metres(1.0e-3)};
  EXPECT_FALSE(overlap(c).covers);
}

TEST(Overlap, ASeatNarrowerThanTheContactIsRefused) {
  EXPECT_EQ(testing::refused_field([] {
              overlap({testing::given_faces(), metres(0.06), metres(0.047), {metres(0)}, {metres(0)}});
            }),
            "seat/outer_diameter");
}

}  // namespace
}  // namespace pumpwright::seal

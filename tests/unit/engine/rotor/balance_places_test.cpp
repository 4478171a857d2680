#include "engine/rotor/balance_places.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

using testing::refused_field;

std::vector<Angle> even(int count) {
  std::vector<Angle> places;
  for (int i = 0; i < count; ++i)
    places.push_back(degrees(360.0 * i / count));
  return places;
}

UnbalanceVector wanted(double g_mm, double at) {
  return {kilogram_metres(g_mm * 1e-6), degrees(at)};
}

TEST(BalancePlaces, HalfWayBetweenTwoPlacesBothTakeTheSame) {
  const auto parts = split_between_places(wanted(100, 30), even(6));
  ASSERT_EQ(parts.size(), 2U);
  EXPECT_NEAR(degrees_of(parts[0].place), 0, 1e-9);
  EXPECT_NEAR(degrees_of(parts[1].place), 60, 1e-9);
  EXPECT_NEAR(parts[0].amount.value(), 50e-6 / std::cos(pi / 6), 1e-15);
  EXPECT_NEAR(parts[1].amount.value(), parts[0].amount.value(), 1e-15);
}

TEST(BalancePlaces, TheSplitGoesRoundPastZero) {
  const auto parts = split_between_places(wanted(100, 350), even(6));
  ASSERT_EQ(parts.size(), 2U);
  EXPECT_NEAR(degrees_of(parts[0].place), 300, 1e-9);
  EXPECT_NEAR(degrees_of(parts[1].place), 0, 1e-9);
  EXPECT_GT(parts[1].amount, parts[0].amount);
}

TEST(BalancePlaces, OnAPlaceThereIsOnePart) {
  for (const double at : {0.0, 60.0, 300.0, 360.0}) {
    const auto parts = split_between_places(wanted(100, at), even(6));
    ASSERT_EQ(parts.size(), 1U) << at;
    EXPECT_NEAR(parts[0].amount.value(), 100e-6, 1e-18);
  }
}

TEST(BalancePlaces, NeighboursHalfATurnApartCannotDoIt) {
  EXPECT_EQ(refused_field([] { (void)split_between_places(wanted(1, 30), even(2)); }), "places");
  EXPECT_EQ(refused_field([] { (void)split_between_places(wanted(1, 30), {}); }), "places");
  const std::vector<Angle> twice{degrees(0), degrees(360), degrees(120)};
  EXPECT_EQ(refused_field([&] { (void)split_between_places(wanted(1, 30), twice); }), "places");
}

TEST(BalancePlaces, TheNearestWeightsAreFound) {
  // 100 g·mm at 30° wants 57.7 g·mm at 0° and at 60°; at 10 mm that is 5.77 g each.
  const std::vector<Mass> drawer{kilograms(5e-3), kilograms(2e-3), kilograms(1e-3)};
  const auto choice = choose_weights(wanted(100, 30), even(6), metres(0.01), drawer, 3);
  ASSERT_EQ(choice.loads.size(), 2U);
  for (const auto& load : choice.loads) {
    EXPECT_NEAR(load.amount.value(), 60e-6, 1e-15);
    EXPECT_EQ(load.weights.size(), 2U);
  }
  EXPECT_NEAR(choice.left.amount.value(), 2 * 60e-6 * std::cos(pi / 6) - 100e-6, 1e-15);
  EXPECT_NEAR(degrees_of(choice.left.place), 210, 1e-6);
}

TEST(BalancePlaces, FewPiecesComeBeforeMany) {
  const std::vector<Mass> drawer{kilograms(1e-3), kilograms(3e-3)};
  const auto choice = choose_weights(wanted(30, 0), even(6), metres(0.01), drawer, 3);
  ASSERT_EQ(choice.loads.size(), 1U);
  EXPECT_EQ(choice.loads[0].weights.size(), 1U);
  EXPECT_NEAR(choice.left.amount.value(), 0, 1e-15);
}

TEST(BalancePlaces, WithOnePlaceOnlyItTakesTheWeight) {
  const std::vector<Angle> one{degrees(30)};
  const std::vector<Mass> drawer{kilograms(4e-3)};
  const auto choice = choose_weights(wanted(100, 30), one, metres(0.01), drawer, 4);
  ASSERT_EQ(choice.loads.size(), 1U);
  EXPECT_EQ(choice.loads[0].weights.size(), 2U);
  EXPECT_NEAR(choice.left.amount.value(), 20e-6, 1e-15);
}

TEST(BalancePlaces, ATooHeavyDrawerFitsNothing) {
  const std::vector<Mass> drawer{kilograms(1)};
  const auto choice = choose_weights(wanted(100, 10), even(6), metres(0.01), drawer, 1);
  EXPECT_TRUE(choice.loads.empty());
  EXPECT_NEAR(choice.left.amount.value(), 100e-6, 1e-15);
}

TEST(BalancePlaces, WhatIsOutOfRangeIsRefused) {
  const std::vector<Mass> drawer{kilograms(1e-3)};
  const std::vector<Mass> none{kilograms(0)};
  EXPECT_EQ(refused_field([&] { (void)choose_weights(wanted(1, 0), even(6), metres(0.1), {}, 1); }),
            "weights");
  EXPECT_EQ(refused_field([&] { (void)choose_weights(wanted(1, 0), even(6), metres(0.1), none, 1); }),
            "weights");
  EXPECT_EQ(refused_field([&] { (void)choose_weights(wanted(1, 0), even(6), metres(0), drawer, 1); }),
            "radius");
  EXPECT_EQ(refused_field([&] { (void)choose_weights(wanted(1, 0), even(6), metres(0.1), drawer, 5); }),
            "most_per_place");
}

}  // namespace
}  // namespace pumpwright::rotor

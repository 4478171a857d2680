#include "engine/rotor/balance_key.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

using testing::refused_field;

// 28 mm shaft, key 8 × 7, seat 4.0 deep: the seat's bottom stands 10 mm from the axis, the joint 14, the
// top 17.
KeyFitted key(double length_mm, double seat_mm, double hub_mm) {
  KeyFitted k;
  k.section = key_for_shaft(metres(0.028), KeySystem::metric);
  k.shaft_diameter = metres(0.028);
  k.key_length = metres(length_mm / 1000);
  k.seat_length = metres(seat_mm / 1000);
  k.hub_length = metres(hub_mm / 1000);
  k.density = kilograms_per_cubic_metre(7850);
  return k;
}

constexpr double lower_kg = 7850 * 0.008 / 2 * (0.014 * 0.014 - 0.010 * 0.010);
constexpr double upper_kg = 7850 * 0.008 / 2 * (0.017 * 0.017 - 0.014 * 0.014);

TEST(BalanceKey, AKeyThatFillsBothKeywaysLeavesNothing) {
  EXPECT_NEAR(unbalance_of_key(key(40, 40, 40)).amount.value(), 0, 1e-18);
}

TEST(BalanceKey, AKeyLongerThanTheHubIsHeavyOnItsSide) {
  const auto u = unbalance_of_key(key(40, 40, 30));
  EXPECT_TRUE(u.towards_key);
  EXPECT_NEAR(u.amount.value(), upper_kg * 0.010, 1e-15);
}

TEST(BalanceKey, AKeyShorterThanItsSeatIsLightThere) {
  const auto u = unbalance_of_key(key(30, 40, 30));
  EXPECT_FALSE(u.towards_key);
  EXPECT_NEAR(u.amount.value(), lower_kg * 0.010, 1e-15);
  ASSERT_TRUE(u.neutral_length);
  EXPECT_NEAR(u.neutral_length->value(), (lower_kg * 0.040 + upper_kg * 0.030) / (lower_kg + upper_kg),
              1e-12);
  EXPECT_NEAR(unbalance_of_key(key(u.neutral_length->value() * 1000, 40, 30)).amount.value(), 0, 1e-15);
}

TEST(BalanceKey, MixedConventionsAddTheUpperHalfTwice) {
  KeyFitted mixed = key(40, 40, 40);
  mixed.shaft = BalancedWith::full_key;
  const auto u = unbalance_of_key(mixed);
  EXPECT_FALSE(u.towards_key);
  EXPECT_NEAR(u.amount.value(), upper_kg * 0.040, 1e-15);
  EXPECT_FALSE(u.neutral_length);
  mixed.hub = BalancedWith::no_key;
  EXPECT_NEAR(unbalance_of_key(mixed).amount.value(), 0, 1e-18);
}

TEST(BalanceKey, APlainShaftCarriesTheWholeKey) {
  KeyFitted plain = key(40, 40, 40);
  plain.shaft = BalancedWith::no_key;
  plain.hub = BalancedWith::no_key;
  EXPECT_NEAR(unbalance_of_key(plain).amount.value(), (lower_kg + upper_kg) * 0.040, 1e-15);
}

TEST(BalanceKey, WhatIsOutOfRangeIsRefused) {
  KeyFitted bad = key(40, 40, 40);
  bad.hub = BalancedWith::full_key;
  EXPECT_EQ(refused_field([&] { (void)unbalance_of_key(bad); }), "key/hub");
  EXPECT_EQ(refused_field([&] { (void)unbalance_of_key(key(-1, 40, 40)); }), "key/length");
  EXPECT_EQ(refused_field([&] { (void)unbalance_of_key(key(40, 4000, 40)); }), "key/seat_length");
  bad = key(40, 40, 40);
  bad.density = kilograms_per_cubic_metre(1);
  EXPECT_EQ(refused_field([&] { (void)unbalance_of_key(bad); }), "key/density");
}

}  // namespace
}  // namespace pumpwright::rotor

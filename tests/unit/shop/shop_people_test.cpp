#include <gtest/gtest.h>

#include "tests/unit/shop/bench_shop.h"

namespace pumpwright::shop {
namespace {

using testing::BenchShop;
using testing::refusal_in;

TEST(ShopPeople, APasswordOpensItsOwnPersonOnly) {
  BenchShop bench;
  EXPECT_EQ(bench.shop().check_password("L.H.", testing::lead_password)->role, Role::lead_hand);
  EXPECT_FALSE(bench.shop().check_password("L.H.", testing::other_password));
  EXPECT_FALSE(bench.shop().check_password("nobody", testing::other_password));
}

TEST(ShopPeople, TheFirstPersonIsMadeOnce) {
  BenchShop bench;
  EXPECT_THROW(bench.shop().add_first_person(
                   {bench.envelope(), "X.Y.", "x", "another long password", Role::office}, "d"),
               Refused);
}

TEST(ShopPeople, InitialsAreNeverGivenTwiceAndTheOldPasswordStays) {
  BenchShop bench;
  EXPECT_THROW(bench.shop().add_person(bench.lead(), {bench.envelope(), "J.M.", "another",
                                                      "an intruder's password", Role::lead_hand}),
               Refused);
  EXPECT_TRUE(bench.shop().check_password("J.M.", testing::other_password));
  EXPECT_FALSE(bench.shop().check_password("J.M.", "an intruder's password"));
}

TEST(ShopPeople, OnlyALeadHandChangesTheShop) {
  BenchShop bench;
  const HandedIn event = bench.envelope("shop-named", {{"name", "mine now"}});
  EXPECT_THROW(bench.shop().hand_in_to_shop(bench.hand("J.M."), std::span(&event, 1)), Refused);
  EXPECT_THROW(bench.shop().add_person(bench.hand("O.F."), {bench.envelope(), "N.N.", "new",
                                                            "a password long enough", Role::office}),
               Refused);
}

TEST(ShopPeople, TheLastLeadHandCanNotLeave) {
  BenchShop bench;
  EXPECT_NE(refusal_in(bench.shop_event("person-changed", {{"id", "L.H."}, {"active", false}})), "");
  EXPECT_EQ(refusal_in(bench.shop_event("person-changed", {{"id", "J.M."}, {"role", "lead-hand"}})), "");
  EXPECT_EQ(refusal_in(bench.shop_event("person-changed", {{"id", "L.H."}, {"active", false}})), "");
  EXPECT_FALSE(bench.shop().check_password("L.H.", testing::lead_password));
}

TEST(ShopPeople, APinWorksOnlyOnItsEnrolledDevice) {
  BenchShop bench;
  const Person technician = bench.shop().state()->people.at("J.M.");
  EXPECT_THROW(bench.shop().set_pin(technician, "tablet-3", testing::other_password, "402871"), Refused);
  bench.shop_event("device-enrolled", {{"id", "tablet-3"}, {"name", "bench 3"}});
  EXPECT_THROW(bench.shop().set_pin(technician, "tablet-3", "not the password", "402871"), Refused);
  bench.shop().set_pin(technician, "tablet-3", testing::other_password, "402871");
  EXPECT_TRUE(bench.shop().check_pin("J.M.", "tablet-3", "402871"));
  EXPECT_FALSE(bench.shop().check_pin("J.M.", "tablet-3", "402872"));
  EXPECT_FALSE(bench.shop().check_pin("J.M.", "tablet-4", "402871"));
  bench.shop_event("device-dropped", {{"id", "tablet-3"}});
  EXPECT_FALSE(bench.shop().check_pin("J.M.", "tablet-3", "402871"));
}

TEST(ShopPeople, ANewPasswordTakesTheOldOnesPlaceAndKeepsTheKey) {
  BenchShop bench;
  const Person technician = bench.shop().state()->people.at("J.M.");
  EXPECT_THROW(bench.shop().set_password(technician, "not the password", "a new one for winter"), Refused);
  bench.shop().set_password(technician, testing::other_password, "a new one for winter");
  EXPECT_FALSE(bench.shop().check_password("J.M.", testing::other_password));
  EXPECT_EQ(bench.shop().check_password("J.M.", "a new one for winter")->public_key, technician.public_key);
}

TEST(ShopPeople, WhoChangedWhatIsListedAndSurvivesAReopening) {
  BenchShop bench;
  bench.shop_event("shop-named", {{"name", "bench shop"}});
  const auto before = bench.shop().state();
  bench.open();
  const auto after = bench.shop().state();
  EXPECT_EQ(after->name, "bench shop");
  ASSERT_EQ(after->changes.size(), before->changes.size());
  EXPECT_EQ(after->changes.back().actor, "L.H.");
  EXPECT_EQ(after->changes.back().type, "shop-named");
}

}  // namespace
}  // namespace pumpwright::shop

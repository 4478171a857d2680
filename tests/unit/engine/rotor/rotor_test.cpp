#include "engine/rotor/rotor.h"

#include <gtest/gtest.h>

#include "tests/support/given_rotor.h"
#include "tests/support/refused.h"

namespace pumpwright::rotor {
namespace {

template <class Change>
std::string refused_after(Change change) {
  Rotor rotor = testing::overhung_rotor();
  change(rotor);
  return testing::refused_field([&] { require_valid(rotor); });
}

TEST(Rotor, AThinDiskTurnsTwiceAsHeavyAsItTilts) {
  const Disk disk = solid_disk(metres(0), kilograms(8), metres(0.2), metres(0));
  EXPECT_NEAR(disk.polar.value(), 0.04, 1e-15);
  EXPECT_NEAR(disk.diametral.value(), 0.02, 1e-15);
  const Disk thick = solid_disk(metres(0), kilograms(8), metres(0.2), metres(0.06));
  EXPECT_NEAR(thick.diametral.value(), 0.02 + 8 * 0.0036 / 12, 1e-15);
}

TEST(Rotor, TheGivenOneIsValid) {
  EXPECT_EQ(refused_after([](Rotor&) {}), "");
}

TEST(Rotor, PlacesOffTheShaftAreNamed) {
  EXPECT_EQ(refused_after([](Rotor& r) { r.supports[1].at = metres(0.301); }), "bearings/1/at");
  EXPECT_EQ(refused_after([](Rotor& r) { r.supports[0].at = metres(-0.01); }), "bearings/0/at");
  EXPECT_EQ(refused_after([](Rotor& r) { r.impeller.at = metres(0.4); }), "impeller/at");
  EXPECT_EQ(refused_after([](Rotor& r) { r.stations = {metres(0.1), metres(1)}; }), "stations/1");
}

TEST(Rotor, BearingsInTheWrongOrderOrOnTopOfEachOtherAreNamed) {
  EXPECT_EQ(refused_after([](Rotor& r) { std::swap(r.supports[0], r.supports[1]); }), "bearings/1/at");
  EXPECT_EQ(refused_after([](Rotor& r) { r.supports[1].at = r.supports[0].at; }), "bearings/1/at");
}

TEST(Rotor, ImpossibleBearingsAndImpellersAreNamed) {
  EXPECT_EQ(refused_after([](Rotor& r) { r.supports[0].stiffness = newtons_per_metre(10); }),
            "bearings/0/stiffness");
  EXPECT_EQ(refused_after([](Rotor& r) { r.impeller.mass = kilograms(-1); }), "impeller/mass");
  EXPECT_EQ(refused_after([](Rotor& r) { r.impeller.polar = 2.01 * r.impeller.diametral; }),
            "impeller/polar_inertia");
  EXPECT_EQ(refused_after([](Rotor& r) { r.impeller.diametral = kilogram_square_metres(-1); }),
            "impeller/diametral_inertia");
  EXPECT_EQ(refused_after([](Rotor& r) { r.others.assign(21, r.impeller); }), "others");
  EXPECT_EQ(refused_after([](Rotor& r) {
              r.others = {r.impeller};
              r.others[0].mass = kilograms(3000);
            }),
            "others/0/mass");
  EXPECT_EQ(refused_after([](Rotor& r) { r.stations.assign(21, metres(0.1)); }), "stations");
}

}  // namespace
}  // namespace pumpwright::rotor

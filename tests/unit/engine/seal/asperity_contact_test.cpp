#include "engine/seal/asperity_contact.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

// Central difference, good to about 1e-7 of the slope.
template <class F>
double difference(F f, double x, double step) {
  return (f(x + step) - f(x - step)) / (2 * step);
}

TEST(AsperityContact, PressureFallsWithSeparationAndItsSlopeIsItsDerivative) {
  const Asperities a;
  double last = 1e300;
  for (double h_m = -0.3e-6; h_m < 1.2e-6; h_m += 0.037e-6) {
    const WithSlope p = contact_pressure(a, h_m);
    EXPECT_LT(p.value, last);
    last = p.value;
    const double slope = difference([&](double x) { return contact_pressure(a, x).value; }, h_m, 1e-11);
    EXPECT_NEAR(p.slope / slope, 1, 1e-5) << h_m;
  }
}

TEST(AsperityContact, FacesFarApartDoNotTouch) {
  EXPECT_EQ(contact_pressure(Asperities{}, 3e-6).value, 0);
}

TEST(AsperityContact, TheRoomLeftIsTheSeparationWhenFarAndNeverNothing) {
  EXPECT_EQ(mean_gap(0.2e-6, 2e-6).value, 2e-6);
  EXPECT_EQ(mean_gap(0, 0.4e-6).value, 0.4e-6);
  EXPECT_NEAR(mean_gap(0.2e-6, 0).value, 0.2e-6 / std::sqrt(2 * pi), 1e-15);
  EXPECT_GT(mean_gap(0.2e-6, -3e-6).value, 0);
  for (double h_m = -0.8e-6; h_m < 1.7e-6; h_m += 0.05e-6)
    EXPECT_NEAR(mean_gap(0.2e-6, h_m).slope,
                difference([](double x) { return mean_gap(0.2e-6, x).value; }, h_m, 1e-10), 1e-6);
}

TEST(AsperityContact, HarderAndMoreCrowdedSummitsPushHarder) {
  Asperities hard;
  hard.modulus = 2.0 * hard.modulus;
  Asperities crowded;
  crowded.crowding *= 2;
  const double plain_pa = contact_pressure(Asperities{}, 0.4e-6).value;
  EXPECT_NEAR(contact_pressure(hard, 0.4e-6).value / plain_pa, 2, 1e-12);
  EXPECT_NEAR(contact_pressure(crowded, 0.4e-6).value / plain_pa, 2, 1e-12);
}

TEST(AsperityContact, ImpossibleSummitsAreNamed) {
  const auto field = [](auto change) {
    Asperities a;
    change(a);
    return testing::refused_field([&] { require_valid(a); });
  };
  EXPECT_EQ(field([](auto&) {}), "");
  EXPECT_EQ(field([](auto& a) { a.roughness = metres(0); }), "asperities/roughness");
  EXPECT_EQ(field([](auto& a) { a.modulus = pascals(0); }), "asperities/modulus");
  EXPECT_EQ(field([](auto& a) { a.crowding = 0; }), "asperities/crowding");
  EXPECT_EQ(field([](auto& a) { a.sharpness = 1; }), "asperities/sharpness");
  EXPECT_EQ(field([](auto& a) { a.friction = 2; }), "asperities/friction");
}

}  // namespace
}  // namespace pumpwright::seal

#include "engine/rotor/response.h"

#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/given_rotor.h"

namespace pumpwright::rotor {
namespace {

constexpr PointForce pull{metres(0.025), newtons(500)};

TEST(Response, ARigidBearingHoldsTheShaftWhereItIs) {
  Rotor rotor = testing::overhung_rotor();
  for (Support& support : rotor.supports)
    support.stiffness.reset();
  const Response r = bent_by(rotor_matrices(rotor), {&pull, 1});
  EXPECT_EQ(point_at(r, metres(0.115)).deflection.value(), 0);
  EXPECT_EQ(point_at(r, metres(0.265)).deflection.value(), 0);
  EXPECT_GT(point_at(r, metres(0.025)).deflection.value(), 0);
  EXPECT_LT(point_at(r, metres(0.19)).deflection.value(), 0);
}

TEST(Response, BearingsShareTheLoadByTheLever) {
  const Response r = bent_by(rotor_matrices(testing::overhung_rotor()), {&pull, 1});
  EXPECT_NEAR(r.bearing[0].value(), 500 * (0.09 + 0.15) / 0.15, 1e-6);
  EXPECT_NEAR(r.bearing[1].value(), -500 * 0.09 / 0.15, 1e-6);
}

TEST(Response, ASpringGivesByItsLoad) {
  const Response r = bent_by(rotor_matrices(testing::overhung_rotor()), {&pull, 1});
  EXPECT_NEAR(point_at(r, metres(0.115)).deflection.value(), 800 / 1.2e8, 1e-15);
  EXPECT_NEAR(point_at(r, metres(0.265)).deflection.value(), -300 / 0.9e8, 1e-15);
}

TEST(Response, BearingsCarryTheWholeWeight) {
  const Rotor rotor = testing::overhung_rotor();
  double mass_kg = 5;
  for (const ShaftStep& step : rotor.steps)
    mass_kg += 7850 * pi / 4 * step.diameter.value() * step.diameter.value() * step.length.value();
  const Response r = bent_by_weight(rotor_matrices(rotor));
  EXPECT_NEAR((r.bearing[0] + r.bearing[1]).value(), 9.80665 * mass_kg, 1e-7);
}

TEST(Response, TurningSlowlyIsStandingStill) {
  const RotorMatrices m = rotor_matrices(testing::overhung_rotor());
  const Response still = bent_by(m, {&pull, 1});
  const Response slow = whirled_by(m, {&pull, 1}, radians_per_second(1e-3));
  EXPECT_NEAR(point_at(slow, metres(0.025)).deflection / point_at(still, metres(0.025)).deflection, 1, 1e-9);
  EXPECT_NEAR(slow.bearing[0] / still.bearing[0], 1, 1e-7);
}

// One mass on a spring: the line grows by 1 / (1 - (S/w)²), and beyond w it points the other way.
TEST(Response, TurningNearTheCriticalSpeedBendsItFar) {
  Rotor rotor = testing::even_shaft(1, 0.02, 0, 1);
  rotor.material.density = kilograms_per_cubic_metre(500);
  rotor.impeller = {metres(0.5), kilograms(400), kilogram_square_metres(0), kilogram_square_metres(0)};
  const RotorMatrices m = rotor_matrices(rotor, 8);
  const PointForce force{metres(0.5), newtons(10)};
  const double still_m = point_at(bent_by(m, {&force, 1}), metres(0.5)).deflection.value();
  const double w = std::sqrt(10 / still_m / 400);
  for (const double share : {0.5, 0.9, 1.5}) {
    const Response r = whirled_by(m, {&force, 1}, radians_per_second(share * w));
    EXPECT_NEAR(point_at(r, metres(0.5)).deflection.value() / still_m * (1 - share * share), 1, 5e-3)
        << share;
  }
}

}  // namespace
}  // namespace pumpwright::rotor

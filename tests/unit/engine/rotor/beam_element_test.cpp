#include "engine/rotor/beam_element.h"

#include <gtest/gtest.h>

#include "tests/support/given_rotor.h"

namespace pumpwright::rotor {
namespace {

const ShaftStep stout{metres(1), metres(0.06), metres(0.02)};
constexpr double length_m = 0.05;

BeamElement stout_element() {
  return beam_element(stout, testing::given_steel(), length_m);
}

TEST(BeamElement, MatricesAreSymmetric) {
  const BeamElement e = stout_element();
  for (const Eigen::Matrix4d& matrix : {e.stiffness, e.mass, e.gyroscopic})
    EXPECT_LT((matrix - matrix.transpose()).norm(), 1e-12 * matrix.norm());
}

TEST(BeamElement, MovingItAsARigidBodyNeedsNoForce) {
  const BeamElement e = stout_element();
  const Eigen::Vector4d shift(1, 0, 1, 0), turn(0, 1, length_m, 1);
  EXPECT_LT((e.stiffness * shift).norm(), 1e-9 * e.stiffness.norm());
  EXPECT_LT((e.stiffness * turn).norm(), 1e-9 * e.stiffness.norm());
}

TEST(BeamElement, MovedAsARigidBodyItWeighsAndTurnsLikeOne) {
  const BeamElement e = stout_element();
  const double area_m2 = pi / 4 * (0.06 * 0.06 - 0.02 * 0.02);
  const double mass_kg = 7850 * area_m2 * length_m;
  const double about_diameter = mass_kg * ((0.06 * 0.06 + 0.02 * 0.02) / 16 + length_m * length_m / 12);
  const Eigen::Vector4d shift(1, 0, 1, 0), turn(-length_m / 2, 1, length_m / 2, 1);
  EXPECT_NEAR(shift.dot(e.mass * shift) / mass_kg, 1, 1e-12);
  EXPECT_NEAR(turn.dot(e.mass * turn) / about_diameter, 1, 1e-12);
  // About its own axis a round piece has twice what it has about a diameter, thickness left out.
  const double polar = mass_kg * (0.06 * 0.06 + 0.02 * 0.02) / 8;
  EXPECT_NEAR(turn.dot(e.gyroscopic * turn) / polar, 1, 1e-12);
  EXPECT_NEAR(shift.dot(e.weight) / mass_kg, 1, 1e-12);
  EXPECT_NEAR(turn.dot(e.weight), 0, 1e-12);
}

TEST(BeamElement, ASlenderPieceIsTheClassicBeam) {
  const ShaftStep slender{metres(1), metres(0.002), metres(0)};
  const BeamElement e = beam_element(slender, testing::given_steel(), 1);
  const double bending = 205e9 * pi / 64 * 0.002 * 0.002 * 0.002 * 0.002;
  EXPECT_NEAR(e.stiffness(0, 0) / bending, 12, 1e-3);
  EXPECT_NEAR(e.stiffness(1, 1) / bending, 4, 1e-3);
  EXPECT_NEAR(e.stiffness(1, 3) / bending, 2, 1e-3);
  const double mass_kg = 7850 * pi / 4 * 0.002 * 0.002;
  EXPECT_NEAR(e.mass(0, 0) / mass_kg, 156.0 / 420, 1e-4);
  EXPECT_NEAR(e.mass(0, 2) / mass_kg, 54.0 / 420, 1e-4);
  EXPECT_NEAR(e.mass(1, 1) / mass_kg, 4.0 / 420, 1e-5);
}

}  // namespace
}  // namespace pumpwright::rotor

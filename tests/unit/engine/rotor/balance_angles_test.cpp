#include "engine/rotor/balance_angles.h"

#include <gtest/gtest.h>

namespace pumpwright::rotor {
namespace {

TEST(BalanceAngles, ALagCountsAsItStandsAndALeadTurnsTheOtherWay) {
  const VibrationVector v{2, degrees(90)};
  EXPECT_NEAR(complex_of(v, {PlacesRise::against_rotation, PhaseIs::lag}).imag(), 2, 1e-15);
  EXPECT_NEAR(complex_of(v, {PlacesRise::against_rotation, PhaseIs::lead}).imag(), -2, 1e-15);
}

TEST(BalanceAngles, PlacesRisingWithRotationTurnTheOtherWay) {
  const UnbalanceVector u{kilogram_metres(3), degrees(30)};
  const auto against = complex_of(u, {PlacesRise::against_rotation, PhaseIs::lag});
  const auto with = complex_of(u, {PlacesRise::with_rotation, PhaseIs::lag});
  EXPECT_EQ(with, std::conj(against));
  EXPECT_NEAR(against.imag(), 1.5, 1e-15);
}

TEST(BalanceAngles, EverySenseComesBackAsItWasWritten) {
  for (const auto rise : {PlacesRise::against_rotation, PlacesRise::with_rotation})
    for (const auto phase : {PhaseIs::lag, PhaseIs::lead})
      for (const double at : {0.0, 1.0, 179.0, 180.0, 271.5, 359.0}) {
        const AngleSense sense{rise, phase};
        const auto u =
            unbalance_of(complex_of(UnbalanceVector{kilogram_metres(2e-6), degrees(at)}, sense), sense);
        EXPECT_NEAR(degrees_of(u.place), at, 1e-12);
        EXPECT_NEAR(u.amount.value(), 2e-6, 1e-20);
        const auto v = vibration_of(complex_of(VibrationVector{0.004, degrees(at)}, sense), sense);
        EXPECT_NEAR(degrees_of(v.phase), at, 1e-12);
      }
}

TEST(BalanceAngles, OppositeStaysWithinOneTurn) {
  EXPECT_NEAR(degrees_of(opposite(degrees(10))), 190, 1e-12);
  EXPECT_NEAR(degrees_of(opposite(degrees(350))), 170, 1e-12);
  EXPECT_NEAR(degrees_of(opposite(degrees(-20))), 160, 1e-12);
}

}  // namespace
}  // namespace pumpwright::rotor

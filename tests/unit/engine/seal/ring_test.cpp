#include "engine/seal/ring.h"

#include <gtest/gtest.h>

#include "tests/support/given_liquid.h"
#include "tests/support/given_seal.h"
#include "tests/support/refused.h"

namespace pumpwright::seal {
namespace {

constexpr PressureSide outside = PressureSide::outside;

HeatTransfer cooling(double w_m2k) {
  return HeatTransfer::from_value(w_m2k);
}

TEST(Ring, AWellLeadingRingIsCooledByItsWholeSide) {
  Ring ring = testing::carbon_ring();
  ring.conductivity = watts_per_metre_kelvin(500);
  const double side_m2 = pi * ring.outer_diameter.value() * ring.length.value();
  EXPECT_NEAR(heat_conductance(ring, cooling(10), outside).value() / (10 * side_m2), 1, 0.01);
}

TEST(Ring, APoorlyLeadingRingIsCooledNearItsFaceOnly) {
  Ring ring = testing::carbon_ring();
  ring.conductivity = watts_per_metre_kelvin(0.5);
  Ring longer = ring;
  longer.length = 2.0 * ring.length;
  EXPECT_NEAR(
      heat_conductance(longer, cooling(6000), outside) / heat_conductance(ring, cooling(6000), outside), 1,
      1e-4);
}

TEST(Ring, HeatOpensTheOutsideAndPressureShutsIt) {
  EXPECT_GT(thermal_coning(testing::carbon_ring(), cooling(6000), outside).value(), 0);
  EXPECT_LT(pressure_coning(testing::carbon_ring(), metres(0.006), outside).value(), 0);
  EXPECT_GT(pressure_coning(testing::carbon_ring(), metres(0.006), PressureSide::inside).value(), 0);
}

TEST(Ring, PressureOnTheWholeLengthOrNoneOfItTiltsNothing) {
  const Ring ring = testing::carbon_ring();
  EXPECT_EQ(pressure_coning(ring, metres(0), outside).value(), 0);
  EXPECT_NEAR(pressure_coning(ring, ring.length, outside).value(), 0, 1e-25);
}

// Nearly uniform loss along the ring: the temperature falls as a parabola whose best line falls by half the
// slope at the face.
TEST(Ring, ThermalConingOfAGentleFinIsThatOfAParabola) {
  Ring ring = testing::carbon_ring();
  ring.conductivity = watts_per_metre_kelvin(400);
  const auto h = cooling(5);
  const double area_m2 = pi / 4 * (0.0616 * 0.0616 - 0.0489 * 0.0489);
  const double face_slope_per_m = heat_conductance(ring, h, outside).value() / (400 * area_m2);
  EXPECT_NEAR(thermal_coning(ring, h, outside).value() / (4e-6 * 0.027625 * face_slope_per_m / 2), 1, 1e-3);
}

TEST(Ring, TheSeriesMeetsTheFormula) {
  const Ring ring = testing::carbon_ring();
  const double area_m2 = pi / 4 * (0.0616 * 0.0616 - 0.0489 * 0.0489);
  const double at_switch = 0.05 * 0.05 / (0.012 * 0.012) * 10 * area_m2 / (pi * 0.0616);
  const double below = thermal_coning(ring, cooling(at_switch * 0.999), outside).value() / 0.999;
  const double above = thermal_coning(ring, cooling(at_switch * 1.001), outside).value() / 1.001;
  EXPECT_NEAR(below / above, 1, 1e-5);
}

TEST(Ring, CoolingOfATurningRingGrowsWithSpeed) {
  const testing::GivenLiquid liquid;
  const auto at = [&](double w) {
    return turning_ring_cooling(liquid, kelvin(300), {pascals(3e5)}, metres(0.06), radians_per_second(w))
        .value();
  };
  EXPECT_NEAR(at(400) / at(50), 4, 1e-9);
  // Re = 300 x 0.06² / 2e-6 = 540 000, Pr = 7: Nu = 0.133 x 6631.3 x 1.91293 = 1687.1.
  EXPECT_NEAR(at(300), 1687.1 * 0.6 / 0.06, 5);
}

TEST(Ring, ImpossibleRingsAreNamed) {
  const auto field = [](auto change) {
    Ring ring = testing::carbon_ring();
    change(ring);
    return testing::refused_field([&] { heat_conductance(ring, cooling(6000), outside); });
  };
  EXPECT_EQ(field([](auto& r) { r.outer_diameter = metres(0); }), "ring/outer_diameter");
  EXPECT_EQ(field([](auto& r) { r.inner_diameter = r.outer_diameter; }), "ring/inner_diameter");
  EXPECT_EQ(field([](auto& r) { r.length = metres(0); }), "ring/length");
  EXPECT_EQ(field([](auto& r) { r.conductivity = watts_per_metre_kelvin(0); }), "ring/conductivity");
  EXPECT_EQ(field([](auto& r) { r.modulus = pascals(0); }), "ring/modulus");
  EXPECT_EQ(field([](auto& r) { r.expansion = per_kelvin(-1e-6); }), "ring/expansion");
  EXPECT_EQ(testing::refused_field([] { heat_conductance(testing::carbon_ring(), cooling(0), outside); }),
            "heat transfer");
  EXPECT_EQ(testing::refused_field([] { pressure_coning(testing::carbon_ring(), metres(1), outside); }),
            "wetted length");
}

}  // namespace
}  // namespace pumpwright::seal

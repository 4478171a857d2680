#include "engine/fluid/if97.h"

#include <limits>

#include <gtest/gtest.h>

#include "engine/fluid/saturation.h"
#include "engine/quantity/bad_input.h"
#include "tests/support/refused.h"

namespace pumpwright {
namespace {

using namespace fluid;

AbsolutePressure bar(double p) {
  return {pascals(1e5 * p)};
}

TEST(Saturation, HoldsFromTheLowestTemperatureToTheCriticalPoint) {
  EXPECT_NEAR(water_saturation_pressure(kelvin(273.15)).value.value(), 611.213, 5e-4);
  EXPECT_NEAR(water_saturation_pressure(kelvin(647.096)).value.value(), 22.064e6, 1);
  EXPECT_THROW(water_saturation_pressure(kelvin(273.149)), BadInput);
  EXPECT_THROW(water_saturation_pressure(kelvin(647.097)), BadInput);
  EXPECT_THROW(water_saturation_pressure(kelvin(std::numeric_limits<double>::quiet_NaN())), BadInput);
}

TEST(Saturation, TemperatureComesBackAtBothEnds) {
  EXPECT_EQ(kelvin_of(water_saturation_temperature(water_saturation_pressure(kelvin(273.15)))), 273.15);
  EXPECT_NEAR(kelvin_of(water_saturation_temperature({pascals(22.064e6)})), 647.096, 1e-6);
  EXPECT_THROW(water_saturation_temperature({pascals(611)}), BadInput);
  EXPECT_THROW(water_saturation_temperature({pascals(22.1e6)}), BadInput);
}

TEST(Saturation, AnErrorSaysTheRangeInBothUnits) {
  const auto wrong = testing::refused([] { water_saturation_pressure(kelvin(700)); });
  EXPECT_EQ(wrong.field, "temperature");
  EXPECT_EQ(wrong.value, "426.85 °C");
  EXPECT_EQ(wrong.expected, "0 °C to 373.946 °C (32 °F to 705.103 °F), the range of boiling water");
}

TEST(LiquidWater, IsRefusedWhereItIsNone) {
  EXPECT_NO_THROW(liquid_water(kelvin(373.15), bar(1.02)));
  EXPECT_THROW(liquid_water(kelvin(373.15), bar(1)), BadInput);  // steam
  EXPECT_THROW(liquid_water(kelvin(623.2), bar(300)), BadInput);
  EXPECT_THROW(liquid_water(kelvin(273.1), bar(1)), BadInput);
  EXPECT_THROW(liquid_water(kelvin(300), bar(1000.1)), BadInput);
  const auto wrong = testing::refused([] { liquid_water(kelvin(373.15), bar(1)); });
  EXPECT_EQ(wrong.field, "pressure");
  EXPECT_EQ(wrong.value, "1 bar(a)");
  EXPECT_EQ(wrong.expected, "1.01418 bar(a) to 1000 bar(a), the range of liquid water at this temperature");
}

TEST(LiquidWater, AndSteamMeetOnTheSaturationLine) {
  const Temperature t = kelvin(393.15);
  const AbsolutePressure p = water_saturation_pressure(t);
  const WaterState liquid = liquid_water(t, p);
  const WaterState vapour = steam(t, p);
  // Equal Gibbs energies, and the heat of vaporisation that steam tables print for 120 °C.
  const auto gibbs = [&](const WaterState& s) {
    return s.enthalpy.value() - kelvin_of(t) * s.entropy.value();
  };
  EXPECT_NEAR(gibbs(liquid), gibbs(vapour), 20);
  EXPECT_NEAR((vapour.enthalpy - liquid.enthalpy).value(), 2202.1e3, 200);
}

TEST(LiquidWater, AtTheTriplePointHasNeitherEnergyNorEntropy) {
  const WaterState s = liquid_water(kelvin(273.16), {pascals(611.657)});
  EXPECT_NEAR(s.internal_energy.value(), 0, 1e-3);
  EXPECT_NEAR(s.entropy.value(), 0, 1e-3);
}

TEST(Steam, IsBoundedByRegionThree) {
  EXPECT_NO_THROW(steam(kelvin(650), bar(200)));
  EXPECT_THROW(steam(kelvin(650), bar(230)), BadInput);
  EXPECT_THROW(steam(kelvin(373.15), bar(1.02)), BadInput);  // liquid
  EXPECT_NO_THROW(steam(kelvin(1000), bar(1000)));
  EXPECT_THROW(steam(kelvin(1074), bar(1)), BadInput);
  EXPECT_THROW(steam(kelvin(400), bar(0)), BadInput);
  EXPECT_THROW(steam_boundary(kelvin(600)), BadInput);
  EXPECT_NEAR(steam_boundary(kelvin(863.15)).value.value(), 100e6, 1e3);
}

TEST(Steam, IsAnIdealGasAtLowPressure) {
  const WaterState s = steam(kelvin(500), bar(0.001));
  EXPECT_NEAR(s.specific_volume.value() * 100 / (461.526 * 500), 1, 1e-5);
  EXPECT_NEAR((s.isobaric - s.isochoric).value(), 461.526, 0.05);
}

// (∂ρ/∂p) at constant temperature against a difference of densities.
TEST(LiquidWater, SofteningIsTheSlopeOfDensity) {
  const Temperature t = kelvin(450);
  const double slope = (liquid_water(t, bar(101)).density - liquid_water(t, bar(99)).density).value() / 2e5;
  EXPECT_NEAR(liquid_water(t, bar(100)).softening.value() / slope, 1, 1e-5);
}

}  // namespace
}  // namespace pumpwright

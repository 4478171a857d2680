#include "engine/fluid/glycol.h"

#include <gtest/gtest.h>

#include "engine/fluid/saturation.h"
#include "engine/quantity/bad_input.h"
#include "tests/support/refused.h"

namespace pumpwright {
namespace {

using namespace fluid;

constexpr AbsolutePressure atmosphere{pascals(101'325)};

TEST(Glycol, BoilsNoLaterThanWaterForAMarginsSake) {
  const Temperature t = kelvin(355);
  EXPECT_EQ(ethylene_glycol(0.5)->saturation_pressure(t).value, water_saturation_pressure(t).value);
  EXPECT_NE(ethylene_glycol(0.5)->sources().saturation.find("pure water's"), std::string::npos);
}

TEST(Glycol, RaoultsLawWouldAllowLess) {
  EXPECT_EQ(water_mole_fraction_of_ethylene_glycol(0), 1);
  EXPECT_LT(water_mole_fraction_of_ethylene_glycol(0.5), water_mole_fraction_of_propylene_glycol(0.5));
  EXPECT_THROW(water_mole_fraction_of_ethylene_glycol(0.7), BadInput);
}

TEST(Glycol, IsKnownDownToItsFreezingPoint) {
  const auto strong = propylene_glycol(0.5);
  const Temperature cold = kelvin(273.15 - 30);
  EXPECT_LT(kelvin_of(strong->lowest_temperature()), kelvin_of(cold));
  EXPECT_GT(strong->viscosity(cold, atmosphere), strong->viscosity(kelvin(300), atmosphere));
  EXPECT_LT(strong->saturation_pressure(cold).value.value(), 60);
  EXPECT_THROW(strong->density(kelvin(273.15 - 33), atmosphere), BadInput);
  EXPECT_THROW(propylene_glycol(0.2)->density(cold, atmosphere), BadInput);
}

TEST(Glycol, SaysItsRange) {
  const auto half = ethylene_glycol(0.5);
  EXPECT_EQ(half->name(), "50 % ethylene glycol in water");
  EXPECT_THROW(half->density(kelvin(374), {pascals(3e5)}), BadInput);
  EXPECT_THROW(half->density(kelvin(300), {pascals(11e6)}), BadInput);
  EXPECT_NO_THROW(half->saturation_temperature({pascals(2e5)}));  // boiling is known further
  EXPECT_THROW(half->saturation_temperature({pascals(20e6)}), BadInput);
  EXPECT_THROW(half->saturation_pressure(kelvin(630)), BadInput);
  const auto wrong = testing::refused([] { ethylene_glycol(50); });
  EXPECT_EQ(wrong.field, "mass fraction of glycol");
  EXPECT_EQ(wrong.value, "50");
  EXPECT_NE(wrong.expected.find("0 to 0.6"), std::string::npos);
  EXPECT_THROW(propylene_glycol(-0.1), BadInput);
}

TEST(Glycol, IgnoresPressureAsItSays) {
  const auto half = ethylene_glycol(0.5);
  EXPECT_EQ(half->density(kelvin(320), atmosphere), half->density(kelvin(320), {pascals(9e6)}));
}

}  // namespace
}  // namespace pumpwright

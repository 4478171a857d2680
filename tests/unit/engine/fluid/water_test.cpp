#include "engine/fluid/water.h"

#include <gtest/gtest.h>

#include "engine/fluid/saturation.h"
#include "engine/fluid/supercooled_water.h"
#include "engine/fluid/water_conductivity.h"
#include "engine/fluid/water_viscosity.h"
#include "engine/quantity/bad_input.h"
#include "tests/support/refused.h"

namespace pumpwright {
namespace {

using namespace fluid;

constexpr AbsolutePressure atmosphere{pascals(101'325)};

// Values as a table of water at shop temperatures has them.
TEST(Water, IsWhatTheTablesSayAtEightyDegrees) {
  const auto liquid = water();
  const Temperature t = kelvin(353.15);
  EXPECT_NEAR(liquid->saturation_pressure(t).value.value(), 47'414.7, 0.1);
  EXPECT_NEAR(liquid->density(t, atmosphere).value(), 971.803, 5e-4);
  EXPECT_NEAR(liquid->heat_capacity(t, atmosphere).value(), 4195.5, 0.05);
  EXPECT_NEAR(liquid->viscosity(t, atmosphere).value(), 0.35406e-3, 1e-8);
  EXPECT_NEAR(liquid->conductivity(t, atmosphere).value(), 0.667, 1e-3);
  EXPECT_EQ(liquid->name(), "water");
}

TEST(Water, IsThickerUnderPressureAndWeighsMore) {
  const auto liquid = water();
  const Temperature t = kelvin(360);
  const AbsolutePressure high{pascals(50e6)};
  EXPECT_GT(liquid->density(t, high), liquid->density(t, atmosphere));
  EXPECT_GT(liquid->viscosity(t, high), liquid->viscosity(t, atmosphere));
  EXPECT_LT(liquid->heat_capacity(t, high), liquid->heat_capacity(t, atmosphere));
}

TEST(Water, TakesATemperatureThatWasFoundForThePressure) {
  const auto liquid = water();
  for (const double p_pa : {700.0, 101'325.0, 3.3e5, 1e7}) {
    const AbsolutePressure p{pascals(p_pa)};
    EXPECT_NO_THROW(liquid->density(liquid->saturation_temperature(p), p)) << p_pa;
  }
}

TEST(Water, KnowsItsRange) {
  const auto liquid = water();
  EXPECT_EQ(kelvin_of(liquid->lowest_temperature()), 273.15);
  EXPECT_EQ(kelvin_of(liquid->highest_temperature()), 623.15);
  EXPECT_THROW(liquid->saturation_pressure(kelvin(630)), BadInput);  // IF97 knows it, the liquid does not
  EXPECT_THROW(liquid->saturation_temperature({pascals(17e6)}), BadInput);
  EXPECT_THROW(liquid->viscosity(kelvin(380), atmosphere), BadInput);
  EXPECT_NE(testing::refused([&] { liquid->conductivity(kelvin(240), atmosphere); }).expected.find("0 °C"),
            std::string::npos);
}

TEST(WaterTransport, IsRefusedOutsideItsRange) {
  EXPECT_THROW(water_viscosity(kelvin(1200), kilograms_per_cubic_metre(1)), BadInput);
  EXPECT_THROW(water_viscosity(kelvin(300), kilograms_per_cubic_metre(1300)), BadInput);
  EXPECT_THROW(water_viscosity(kelvin(300), kilograms_per_cubic_metre(-1)), BadInput);
  EXPECT_EQ(testing::refused([] {
              water_background_conductivity(kelvin(300), kilograms_per_cubic_metre(-1));
            }).field,
            "density");
}

TEST(SupercooledWater, ContinuesTheSaturationLineWithoutAStep) {
  const double at = water_saturation_pressure(kelvin(273.15)).value.value();
  const double below = liquid_water_saturation_pressure(kelvin(273.15 - 1e-7)).value.value();
  EXPECT_LT(below, at);
  EXPECT_NEAR(below / at, 1, 1e-8);
  EXPECT_EQ(liquid_water_saturation_pressure(kelvin(273.15)).value.value(), at);
  EXPECT_THROW(liquid_water_saturation_pressure(kelvin(199)), BadInput);
  EXPECT_THROW(liquid_water_saturation_temperature({pascals(0.01)}), BadInput);
}

}  // namespace
}  // namespace pumpwright

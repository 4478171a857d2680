#include "engine/fluid/sea_water.h"

#include <gtest/gtest.h>

#include "engine/fluid/water.h"
#include "engine/quantity/bad_input.h"
#include "tests/support/refused.h"

namespace pumpwright {
namespace {

using namespace fluid;

constexpr AbsolutePressure atmosphere{pascals(101'325)};

// Two fits of the same pure water, made by others: they agree as well as the paper says.
TEST(SeaWater, WithoutSaltIsWater) {
  const auto fresh = sea_water(0);
  const auto pure = water();
  for (const double t_k : {280.0, 300.0, 330.0, 370.0}) {
    const Temperature t = kelvin(t_k);
    EXPECT_EQ(fresh->saturation_pressure(t).value, pure->saturation_pressure(t).value);
    EXPECT_NEAR(fresh->density(t, atmosphere) / pure->density(t, atmosphere), 1, 1e-3) << t_k;
    EXPECT_NEAR(fresh->viscosity(t, atmosphere) / pure->viscosity(t, atmosphere), 1, 5e-3) << t_k;
    EXPECT_NEAR(fresh->heat_capacity(t, atmosphere) / pure->heat_capacity(t, atmosphere), 1, 5e-3) << t_k;
    EXPECT_NEAR(fresh->conductivity(t, atmosphere) / pure->conductivity(t, atmosphere), 1, 0.03) << t_k;
  }
}

TEST(SeaWater, SaltMakesItHeavierThickerAndBoilLater) {
  const auto fresh = sea_water(0);
  const auto brine = sea_water(0.12);
  const Temperature t = kelvin(310);
  EXPECT_GT(brine->density(t, atmosphere), fresh->density(t, atmosphere));
  EXPECT_GT(brine->viscosity(t, atmosphere), fresh->viscosity(t, atmosphere));
  EXPECT_LT(brine->heat_capacity(t, atmosphere), fresh->heat_capacity(t, atmosphere));
  EXPECT_LT(brine->conductivity(t, atmosphere), fresh->conductivity(t, atmosphere));
  EXPECT_LT(brine->saturation_pressure(t).value, fresh->saturation_pressure(t).value);
  EXPECT_GT(kelvin_of(brine->saturation_temperature(atmosphere)),
            kelvin_of(fresh->saturation_temperature(atmosphere)));
}

TEST(SeaWater, IsKnownByItsSaltAndItsRange) {
  EXPECT_EQ(sea_water(0.035)->name(), "sea water of 35 g/kg");
  EXPECT_THROW(sea_water(-0.001), BadInput);
  const auto wrong = testing::refused([] { sea_water(35); });
  EXPECT_EQ(wrong.field, "salinity");
  EXPECT_EQ(wrong.value, "35");
  EXPECT_NE(wrong.expected.find("0 to 0.15"), std::string::npos);
  const auto sea = sea_water(0.035);
  EXPECT_THROW(sea->density(kelvin(460), {pascals(5e6)}), BadInput);
  EXPECT_THROW(sea->density(kelvin(300), {pascals(11e6)}), BadInput);
  EXPECT_THROW(sea->density(kelvin(300), {pascals(1000)}), BadInput);
  EXPECT_EQ(testing::refused([&] { sea->viscosity(kelvin(272), atmosphere); }).expected,
            "0 °C to 180 °C (32 °F to 356 °F), the range of sea water of 35 g/kg");
}

}  // namespace
}  // namespace pumpwright

#include "cli/fluid_question.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "engine/fluid/sea_water.h"
#include "engine/fluid/water.h"
#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

FluidQuestion about_water(double t_k) {
  FluidQuestion q;
  q.name = "water";
  q.liquid = fluid::water();
  q.at = kelvin(t_k);
  return q;
}

TEST(FluidAnswer, TakesTheAtmosphereWhereTheLiquidDoesNotBoil) {
  const auto f = answer(about_water(300));
  EXPECT_EQ(f.pressure.value.value(), 101'325);
  EXPECT_FALSE(f.pressure_was_given);
  EXPECT_NEAR(kelvin_of(f.saturation_temperature.value()), 373.124, 1e-3);
}

TEST(FluidAnswer, TakesSaturationWhereItWouldBoil) {
  const auto f = answer(about_water(450));
  EXPECT_EQ(f.pressure.value, f.saturation_pressure.value);
  EXPECT_NEAR(kelvin_of(f.saturation_temperature.value()), 450, 1e-9);
}

TEST(FluidAnswer, RefusesAPressureAtWhichItIsNoLiquid) {
  auto q = about_water(450);
  q.pressure = AbsolutePressure{pascals(2e5)};
  EXPECT_THROW(answer(q), BadInput);
}

TEST(FluidAnswer, LeavesOutABoilingPointThatIsNotKnown) {
  FluidQuestion q;
  q.liquid = fluid::sea_water(0.035);
  q.at = kelvin(350);
  q.pressure = AbsolutePressure{pascals(2e6)};
  const auto f = answer(q);
  EXPECT_FALSE(f.saturation_temperature.has_value());
  EXPECT_TRUE(nlohmann::json::parse(fluid_json(q, f)).at("saturation_temperature_K").is_null());
  EXPECT_NE(fluid_text(q, f).find("outside the range"), std::string::npos);
}

TEST(FluidAnswer, IsShownInTheSystemAskedFor) {
  auto q = about_water(355.372222);
  q.system = System::inch;
  const std::string text = fluid_text(q, answer(q));
  EXPECT_NE(text.find("water at 180.0 °F, 14.70 psia (the standard atmosphere)"), std::string::npos) << text;
  EXPECT_NE(text.find("7.520 psia"), std::string::npos) << text;
  EXPECT_NE(text.find("IAPWS R7-97(2012)"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright

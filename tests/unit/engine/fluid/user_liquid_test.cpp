#include "engine/fluid/user_liquid.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"
#include "tests/support/refused.h"

namespace pumpwright {
namespace {

using namespace fluid;

constexpr AbsolutePressure atmosphere{pascals(101'325)};

Temperature celsius(double c) {
  return kelvin(273.15 + c);
}

UserLiquid thinner() {
  return {.name = "thinner",
          .source = "the drum's sheet",
          .vapour_pressure = {{celsius(10), {pascals(2500)}}, {celsius(100), {pascals(90'000)}}},
          .viscosity = {{{celsius(20), square_metres_per_second(1.2e-6)},
                         {celsius(80), square_metres_per_second(0.5e-6)}}},
          .density = {{celsius(15), kilograms_per_cubic_metre(780)}},
          .heat_capacity = joules_per_kilogram_kelvin(2100),
          .conductivity = watts_per_metre_kelvin(0.13)};
}

TEST(UserLiquid, IsKnownWhereItsPointsOverlap) {
  const auto liquid = user_liquid(thinner());
  EXPECT_EQ(kelvin_of(liquid->lowest_temperature()), kelvin_of(celsius(20)));
  EXPECT_EQ(kelvin_of(liquid->highest_temperature()), kelvin_of(celsius(80)));
  EXPECT_THROW(liquid->saturation_pressure(celsius(10)), BadInput);
  EXPECT_THROW(liquid->density(celsius(90), atmosphere), BadInput);
  EXPECT_NEAR(liquid->viscosity(celsius(20), atmosphere).value(), 1.2e-6 * 780, 1e-13);
  EXPECT_EQ(liquid->heat_capacity(celsius(50), atmosphere).value(), 2100);
  EXPECT_EQ(liquid->conductivity(celsius(50), atmosphere).value(), 0.13);
  EXPECT_NE(liquid->sources().density.find("the drum's sheet; taken as constant"), std::string::npos);
  EXPECT_NE(liquid->sources().saturation.find("Clausius-Clapeyron"), std::string::npos);
}

TEST(UserLiquid, DensityIsALineThroughTwoPoints) {
  UserLiquid sheet = thinner();
  sheet.density = {{celsius(75), kilograms_per_cubic_metre(730)},
                   {celsius(25), kilograms_per_cubic_metre(780)}};
  const auto liquid = user_liquid(sheet);
  EXPECT_NEAR(liquid->density(celsius(50), atmosphere).value(), 755, 1e-9);
  EXPECT_EQ(kelvin_of(liquid->lowest_temperature()), kelvin_of(celsius(25)));
  EXPECT_EQ(kelvin_of(liquid->highest_temperature()), kelvin_of(celsius(75)));
}

TEST(UserLiquid, IsRefusedBelowItsSaturation) {
  const auto liquid = user_liquid(thinner());
  EXPECT_THROW(liquid->density(celsius(70), {pascals(1000)}), BadInput);
  EXPECT_THROW(liquid->heat_capacity(celsius(70), {pascals(11e6)}), BadInput);
}

TEST(UserLiquid, NamesTheFieldThatIsWrong) {
  const auto field_of = [](auto change) {
    UserLiquid sheet = thinner();
    change(sheet);
    return testing::refused([&] { user_liquid(sheet); }).field;
  };
  EXPECT_EQ(field_of([](UserLiquid& s) { s.name = ""; }), "name of the liquid");
  EXPECT_EQ(field_of([](UserLiquid& s) { s.source = ""; }), "source of the liquid");
  EXPECT_EQ(field_of([](UserLiquid& s) { s.density.clear(); }), "density");
  EXPECT_EQ(field_of([](UserLiquid& s) { s.density[0].density = kilograms_per_cubic_metre(0.78); }),
            "density");
  EXPECT_EQ(field_of([](UserLiquid& s) { s.density.push_back(s.density[0]); }), "density");
  EXPECT_EQ(field_of([](UserLiquid& s) { s.heat_capacity = joules_per_kilogram_kelvin(2.1); }),
            "heat capacity");
  EXPECT_EQ(field_of([](UserLiquid& s) { s.conductivity = watts_per_metre_kelvin(130); }), "conductivity");
  EXPECT_EQ(field_of([](UserLiquid& s) { s.vapour_pressure.pop_back(); }), "vapour pressure");
  EXPECT_EQ(field_of([](UserLiquid& s) {
              s.vapour_pressure = {{celsius(90), {pascals(1e4)}}, {celsius(100), {pascals(2e4)}}};
            }),
            "thinner");
}

}  // namespace
}  // namespace pumpwright

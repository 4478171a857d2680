#include <gtest/gtest.h>

#include "engine/fluid/water.h"
#include "engine/hydraulics/npsh.h"
#include "tests/support/given_liquid.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

constexpr double ft = 0.3048;

// The examples state heads of atmosphere and vapour in feet; pressures are made of them for a liquid of
// 1000 kg/m³ whose vapour pressure is the one stated.
double available_ft(double atmosphere_ft, double level_ft, double vapour_ft, double losses_ft) {
  GivenLiquid liquid;
  const double vapour_pa = liquid.saturation_pressure(kelvin(293.15)).value.value();
  const double surface_pa = vapour_pa + (atmosphere_ft - vapour_ft) * ft * 9806.65;
  return hydraulics::npsh_available(
             {{pascals(surface_pa)}, metres(level_ft * ft), metres(losses_ft * ft), kelvin(293.15)}, liquid)
             .value() /
         ft;
}

TEST(NpshReference, HandbookExamplesComeOut) {
  const std::string course = "handbook page on calculating NPSHA (wastewater treatment)";
  expect_outside(
      {"flooded suction, open tank", course, Obtained::read, "46", available_ft(34, 15, 0.6, 2.4), "ft", 2});
  expect_outside({"suction lift", course, Obtained::read, "11", available_ft(34, -20, 0.6, 2.4), "ft", 2});
  expect_outside({"flooded suction at sea level", "civil engineering handbook, NPSHA example", Obtained::read,
                  "35.061", available_ft(33.9, 6.0, 0.839, 4.0), "ft", 5});
  expect_outside({"pressurised hot tank", "pumping handbook, p. 62", Obtained::read, "72.321",
                  available_ft(34.474, 45, 6.775, 0.378), "ft", 5});
}

// Water at 60 °F boils at 0.256 psia, printed as 0.6 ft.
TEST(NpshReference, WaterAt60FTakesWhatTheExampleTakes) {
  const auto water = fluid::water();
  const hydraulics::SuctionSide side{
      {pascals(14.7 * 6894.757293168)}, metres(15 * ft), metres(2.4 * ft), kelvin(288.7055555556)};
  expect_outside({"flooded suction at 60 F with water's own properties",
                  "the same handbook page, rounded to a foot", Obtained::read, "46",
                  hydraulics::npsh_available(side, *water).value() / ft, "ft", 2});
}

}  // namespace
}  // namespace pumpwright::testing

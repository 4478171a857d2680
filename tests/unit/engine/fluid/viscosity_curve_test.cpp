#include "engine/fluid/viscosity_curve.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"
#include "tests/support/refused.h"

namespace pumpwright {
namespace {

using fluid::ViscosityCurve;
using fluid::ViscosityPoint;

ViscosityPoint point(double celsius, double mm2_s) {
  return {kelvin(273.15 + celsius), square_metres_per_second(mm2_s * 1e-6)};
}

TEST(ViscosityCurve, GoesThroughItsPointsInEitherOrder) {
  for (const double cold : {32.0, 1.9, 0.9}) {
    const ViscosityCurve curve({point(100, cold / 3), point(20, cold)});
    EXPECT_NEAR(curve.at(kelvin(293.15)).value() * 1e6 / cold, 1, 1e-11);
    EXPECT_NEAR(curve.at(kelvin(373.15)).value() * 1e6 / (cold / 3), 1, 1e-11);
    EXPECT_EQ(kelvin_of(curve.lowest()), 293.15);
  }
}

TEST(ViscosityCurve, DoesNotGoBeyondThem) {
  const ViscosityCurve curve({point(40, 32), point(100, 5.4)});
  EXPECT_THROW(curve.at(kelvin(300)), BadInput);
  EXPECT_EQ(testing::refused([&] { curve.at(kelvin(380)); }).expected,
            "40 °C to 100 °C (104 °F to 212 °F), the range of the two viscosity points");
}

TEST(ViscosityCurve, RefusesPointsThatAreNoLiquid) {
  EXPECT_THROW(ViscosityCurve({point(40, 5), point(100, 6)}), BadInput);
  EXPECT_THROW(ViscosityCurve({point(40, 5), point(40, 4)}), BadInput);
  EXPECT_THROW(ViscosityCurve({point(-200, 5), point(40, 4)}), BadInput);
  EXPECT_EQ(testing::refused([] {
              ViscosityCurve({point(40, 5), point(100, 0.1)});
            }).field,
            "viscosity point 2");
}

}  // namespace
}  // namespace pumpwright

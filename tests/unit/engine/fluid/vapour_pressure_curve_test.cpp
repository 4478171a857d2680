#include "engine/fluid/vapour_pressure_curve.h"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"
#include "tests/support/refused.h"

namespace pumpwright {
namespace {

using fluid::VapourPressureCurve;
using fluid::VapourPressurePoint;

VapourPressurePoint point(double t_k, double p_pa) {
  return {kelvin(t_k), {pascals(p_pa)}};
}

VapourPressurePoint antoine_point(double t_k) {
  return point(t_k, std::exp(21 - 2900 / (t_k - 53)));
}

TEST(VapourPressureCurve, IsAStraightLineThroughTwoPoints) {
  const VapourPressureCurve line({point(300, 1000), point(400, 100'000)});
  EXPECT_FALSE(line.is_antoine());
  EXPECT_NEAR(line.pressure(kelvin(300)).value.value(), 1000, 1e-8);
  // Half way in 1/T is half way in ln p.
  EXPECT_NEAR(line.pressure(kelvin(2 / (1 / 300.0 + 1 / 400.0))).value.value(), 10'000, 1e-6);
  EXPECT_NEAR(kelvin_of(line.temperature({pascals(10'000)})), 2 / (1 / 300.0 + 1 / 400.0), 1e-9);
}

TEST(VapourPressureCurve, FindsAntoinesCurveThroughThreePointsAndMore) {
  for (const auto& points : {std::vector{antoine_point(290), antoine_point(330), antoine_point(390)},
                             std::vector{antoine_point(390), antoine_point(290), antoine_point(310),
                                         antoine_point(330), antoine_point(360)}}) {
    const VapourPressureCurve curve(points);
    EXPECT_TRUE(curve.is_antoine());
    EXPECT_LT(curve.misfit(), 1e-9);
    EXPECT_NEAR(curve.pressure(kelvin(350)).value / antoine_point(350).p.value, 1, 1e-9);
  }
}

TEST(VapourPressureCurve, SaysHowFarItMissesItsPoints) {
  std::vector points{antoine_point(290), antoine_point(320), antoine_point(350), antoine_point(380)};
  points[1].p.value *= 1.04;
  const VapourPressureCurve curve(points);
  EXPECT_GT(curve.misfit(), 0.01);
  EXPECT_LT(curve.misfit(), 0.04);
}

TEST(VapourPressureCurve, DoesNotGoBeyondItsPoints) {
  const VapourPressureCurve curve({antoine_point(290), antoine_point(330), antoine_point(390)});
  EXPECT_THROW(curve.pressure(kelvin(289.9)), BadInput);
  EXPECT_THROW(curve.pressure(kelvin(390.1)), BadInput);
  EXPECT_THROW(curve.temperature({1.01 * antoine_point(390).p.value}), BadInput);
  EXPECT_EQ(kelvin_of(curve.temperature(curve.pressure(kelvin(390)))), 390);
}

TEST(VapourPressureCurve, RefusesWhatNoLiquidDoes) {
  EXPECT_THROW(VapourPressureCurve({point(300, 1000)}), BadInput);
  EXPECT_THROW(VapourPressureCurve({point(300, 1000), point(300, 1100)}), BadInput);
  EXPECT_THROW(VapourPressureCurve({point(300, 1000), point(310, 900)}), BadInput);
  EXPECT_THROW(VapourPressureCurve({point(50, 1000), point(310, 9000)}), BadInput);
  EXPECT_THROW(VapourPressureCurve({point(300, 0), point(310, 9000)}), BadInput);
  // One pressure was misread by a factor of ten.
  const auto wrong = testing::refused([] {
    VapourPressureCurve({point(300, 3500), point(320, 10'500), point(340, 270'000), point(360, 622'000),
                         point(370, 900'000)});
  });
  EXPECT_EQ(wrong.field, "vapour pressure");
}

}  // namespace
}  // namespace pumpwright

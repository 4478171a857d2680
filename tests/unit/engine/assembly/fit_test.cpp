#include "engine/assembly/fit.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

SizeLimits limits_mm(double smallest, double largest) {
  return {metres(smallest / 1000), metres(largest / 1000)};
}

TEST(Fit, SmallestBoreMeetsLargestShaft) {
  const FitRange fit = fit_between(limits_mm(50.000, 50.025), limits_mm(49.975, 49.991));
  EXPECT_NEAR(fit.smallest_clearance.value(), 9e-6, 1e-15);
  EXPECT_NEAR(fit.largest_clearance.value(), 50e-6, 1e-15);
  EXPECT_EQ(fit.kind, FitKind::clearance);
}

TEST(Fit, KindsTurnWhereTheLimitsTouch) {
  EXPECT_EQ(fit_between(limits_mm(20, 20.021), limits_mm(19.987, 20)).kind, FitKind::clearance);
  EXPECT_EQ(fit_between(limits_mm(20, 20.021), limits_mm(19.987, 20.001)).kind, FitKind::transition);
  EXPECT_EQ(fit_between(limits_mm(20, 20.021), limits_mm(20.021, 20.030)).kind, FitKind::interference);
  EXPECT_EQ(fit_between(limits_mm(20, 20.021), limits_mm(20.020, 20.030)).kind, FitKind::transition);
  EXPECT_STREQ(word_for(FitKind::transition), "transition");
}

TEST(Fit, MeasuredSizesCarryTheirUncertaintyIntoTheClearance) {
  const MeasuredFit fit = fit_between(MeasuredDiameter{metres(0.025012), metres(3e-6)},
                                      MeasuredDiameter{metres(0.025004), metres(4e-6)});
  EXPECT_NEAR(fit.clearance.value(), 8e-6, 1e-15);
  EXPECT_NEAR(fit.standard_uncertainty.value(), 5e-6, 1e-15);
  EXPECT_NEAR(fit.range.smallest_clearance.value(), -2e-6, 1e-15);
  EXPECT_NEAR(fit.range.largest_clearance.value(), 18e-6, 1e-15);
  EXPECT_EQ(fit.range.kind, FitKind::transition);
  EXPECT_NEAR(fit.probability_of_clearance, 0.5 * std::erfc(-1.6 / std::sqrt(2.0)), 1e-12);
}

TEST(Fit, CertainSizesGiveACertainAnswer) {
  const auto exact = [](double d) { return MeasuredDiameter{metres(d), metres(0)}; };
  EXPECT_EQ(fit_between(exact(0.02), exact(0.019)).probability_of_clearance, 1.0);
  EXPECT_EQ(fit_between(exact(0.02), exact(0.021)).probability_of_clearance, 0.0);
  EXPECT_EQ(fit_between(exact(0.02), exact(0.02)).probability_of_clearance, 0.5);
}

TEST(Fit, RefusesSizesThatCanNotBe) {
  EXPECT_THROW(fit_between(limits_mm(-1, 1), limits_mm(1, 2)), BadInput);
  EXPECT_THROW(fit_between(limits_mm(2, 1), limits_mm(1, 2)), BadInput);
  EXPECT_THROW(fit_between(limits_mm(1, 2), limits_mm(1, std::nan(""))), BadInput);
  const MeasuredDiameter good{metres(0.02), metres(1e-6)};
  EXPECT_THROW(fit_between(MeasuredDiameter{metres(0.02), metres(-1e-6)}, good), BadInput);
  EXPECT_THROW(fit_between(good, MeasuredDiameter{metres(0), metres(0)}), BadInput);
  EXPECT_THROW(fit_between(good, good, 11), BadInput);
}

}  // namespace
}  // namespace pumpwright

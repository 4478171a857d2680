#include "cli/fit_size.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

constexpr double inch = 0.0254;

FitSize shaft(const std::string& text, const std::string& u = "") {
  return parse_fit_size(text, u, FitSide::shaft, "--shaft");
}

void expect_limits(const std::string& text, double smallest_m, double largest_m) {
  const auto size = shaft(text);
  EXPECT_NEAR(size.limits.smallest.value(), smallest_m, 1e-12) << text;
  EXPECT_NEAR(size.limits.largest.value(), largest_m, 1e-12) << text;
  EXPECT_FALSE(size.measured) << text;
}

TEST(FitSize, ReadsAClassOfIso286) {
  expect_limits("50 g6", 49.975e-3, 49.991e-3);
  expect_limits("50g6", 49.975e-3, 49.991e-3);
  EXPECT_FALSE(shaft("50 g6").class_source.empty());
}

TEST(FitSize, ReadsASizeWithTwoDeviations) {
  expect_limits("1.2495 in +0/-0.0005 in", 1.249 * inch, 1.2495 * inch);
  expect_limits("1.2495 +0/-0.0005 in", 1.249 * inch, 1.2495 * inch);
  expect_limits("1.2495 in +0 / -0.5 thou", 1.249 * inch, 1.2495 * inch);
  expect_limits("1-1/4 in +0.002/-0.001 in", 1.249 * inch, 1.252 * inch);
  expect_limits("50 mm −0.009/−0.025 mm", 49.975e-3, 49.991e-3);
}

TEST(FitSize, ReadsASizeWithEqualDeviations) {
  expect_limits("50 ±0.01 mm", 49.99e-3, 50.01e-3);
  expect_limits("1.25 in ± 0.5 thou", 1.2495 * inch, 1.2505 * inch);
}

TEST(FitSize, ReadsTheTwoLimits) {
  expect_limits("49.975..49.991 mm", 49.975e-3, 49.991e-3);
  expect_limits("1.2490 in .. 1.2495 in", 1.249 * inch, 1.2495 * inch);
}

TEST(FitSize, ReadsAMeasuredSizeWithItsUncertainty) {
  const auto size = shaft("1.2493 in", "0.0001");
  ASSERT_TRUE(size.measured);
  EXPECT_NEAR(size.measured->value.value(), 1.2493 * inch, 1e-15);
  EXPECT_NEAR(size.measured->standard_uncertainty.value(), 0.0001 * inch, 1e-15);
  EXPECT_EQ(shaft("1-1/4 in").measured->value.value(), 1.25 * inch);
}

TEST(FitSize, RefusesWhatItCanNotBeSureOf) {
  for (const char* text :
       {"50", "", "50 H7", "50 H7/g6", "-50 mm", "0 mm", "50 mm +0.01", "49.991..49.975 mm",
        "1.2495 in -0.001/+0.002 in", "20 degC", "50 mm ± 60 mm", "1,250 mm", "..", "±", "/-"})
    EXPECT_THROW(shaft(text), BadInput) << text;
  EXPECT_THROW(parse_fit_size("50 g6", "", FitSide::bore, "--bore"), BadInput);
  EXPECT_THROW(shaft("50 g6", "1 µm"), BadInput) << "an uncertainty belongs to a measured size";
  EXPECT_THROW(shaft("50 mm", "-1 µm"), BadInput);
}

}  // namespace
}  // namespace pumpwright

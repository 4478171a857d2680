// Diameters at sections and clock positions.
#include "engine/metrology/size.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

DiameterReading at(double section_mm, double clock_deg, double diameter_mm) {
  return {metres(section_mm * 1e-3), degrees(clock_deg), metres(diameter_mm * 1e-3)};
}

const std::vector<DiameterReading> shaft{at(40, 0, 34.990), at(40, 90, 34.994), at(5, 0, 34.998),
                                         at(5, 90, 35.000), at(20, 0, 35.003),  at(20, 90, 35.003),
                                         at(20, 45, 35.003)};

TEST(Size, SortsSectionsAndStatesTaperOvalityAndExtremes) {
  const SizeResult r = summarize_size(shaft);
  EXPECT_EQ(r.count, 7U);
  ASSERT_EQ(r.sections.size(), 3U);
  EXPECT_NEAR(r.sections[0].section.value(), 5e-3, 1e-15);
  EXPECT_EQ(r.sections[1].count, 3U);
  EXPECT_NEAR(r.sections[0].mean.value(), 34.999e-3, 1e-15);
  EXPECT_NEAR(r.sections[2].ovality.value(), 4e-6, 1e-15);
  EXPECT_NEAR(r.ovality.value(), 4e-6, 1e-15);
  EXPECT_NEAR(r.taper.value(), -7e-6, 1e-15);
  EXPECT_NEAR(r.section_spread.value(), 11e-6, 1e-15);
  EXPECT_NEAR(r.smallest.value(), 34.990e-3, 1e-15);
  EXPECT_NEAR(r.largest.value(), 35.003e-3, 1e-15);
}

TEST(Size, ASectionReadMoreOftenDoesNotWeighMore) {
  const SizeResult r = summarize_size(shaft);
  EXPECT_NEAR(r.mean.value(), (34.999e-3 + 35.003e-3 + 34.992e-3) / 3, 1e-15);
}

TEST(Size, OneReadingHasNeitherTaperNorOvality) {
  const SizeResult r = summarize_size(std::vector{at(0, 0, 25)});
  EXPECT_EQ(r.taper.value(), 0);
  EXPECT_EQ(r.ovality.value(), 0);
  EXPECT_EQ(r.u.value(), 0);
  EXPECT_NEAR(r.mean.value(), 25e-3, 1e-18);
}

TEST(Size, ScatterAveragesOutAndThePermissibleErrorDoesNot) {
  Instrument micrometer{.id = "M-3", .graduation = metres(2e-6)};
  micrometer.mpe = metres(3e-6);
  const std::vector<DiameterReading> four{at(0, 0, 30), at(0, 90, 30), at(10, 0, 30), at(10, 90, 30)};
  const SizeResult r = summarize_size(four, &micrometer);
  EXPECT_NEAR(r.u.value(), std::sqrt(4e-12 / 12 + 9e-12 / 3), 1e-18);
  EXPECT_NEAR(r.u_mean.value(), std::sqrt(4e-12 / 12 / 4 + 9e-12 / 3), 1e-18);
}

TEST(Size, TheExtremesAreWhatIsJudged) {
  Instrument micrometer{.id = "M-3", .graduation = metres(2e-6)};
  micrometer.in_date = false;
  const SizeResult r = summarize_size(shaft, &micrometer);
  EXPECT_NEAR(smallest_measured(r, micrometer).value.value(), 34.990e-3, 1e-15);
  const Measured<Length> largest = largest_measured(r, micrometer);
  EXPECT_NEAR(largest.value.value(), 35.003e-3, 1e-15);
  EXPECT_NEAR(largest.u.value(), 2e-6 / std::sqrt(12.0), 1e-18);
  EXPECT_NEAR(largest.graduation->value(), 2e-6, 1e-18);
  EXPECT_FALSE(largest.in_date);
}

TEST(Size, RefusesNoReadingsAndDiametersThatAreNone) {
  EXPECT_THROW(summarize_size({}), BadInput);
  for (const double bad : {0.0, -25.0, std::nan(""), HUGE_VAL})
    EXPECT_THROW(summarize_size(std::vector{at(0, 0, 25), at(0, 90, bad)}), BadInput) << bad;
  EXPECT_THROW(summarize_size(std::vector{at(std::nan(""), 0, 25)}), BadInput);
}

}  // namespace
}  // namespace pumpwright

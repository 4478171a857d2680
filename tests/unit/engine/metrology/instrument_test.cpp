// From what a certificate says to the doubt about a reading.
#include "engine/metrology/instrument.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

Instrument dial() {
  return {.id = "D-07", .graduation = metres(10e-6)};
}

TEST(Instrument, AGraduationAloneIsARectangleOfHalfAGraduation) {
  const UncertaintyBudget budget = reading_budget(dial());
  ASSERT_EQ(budget.contributions.size(), 1U);
  EXPECT_EQ(budget.contributions[0].distribution, AssumedShape::rectangular);
  EXPECT_NEAR(budget.standard().value(), 10e-6 / std::sqrt(12.0), 1e-18);
  EXPECT_TRUE(std::isinf(budget.effective_dof()));
}

TEST(Instrument, AStatedReadingHalfWidthReplacesHalfAGraduation) {
  Instrument i = dial();
  i.reading_half_width = metres(1e-6);
  EXPECT_NEAR(reading_budget(i).standard().value(), 1e-6 / std::sqrt(3.0), 1e-18);
}

TEST(Instrument, ContributionsAddInSquares) {
  Instrument i = dial();
  i.mpe = metres(12e-6);
  i.repeatability = metres(3e-6);
  i.repeatability_dof = 9;
  const UncertaintyBudget budget = reading_budget(i);
  EXPECT_EQ(budget.contributions.size(), 3U);
  const double u2 = 100e-12 / 12 + 144e-12 / 3 + 9e-12;
  EXPECT_NEAR(budget.standard().value(), std::sqrt(u2), 1e-18);
  EXPECT_NEAR(budget.effective_dof(), u2 * u2 / (81e-24 / 9), 1e-6);
  EXPECT_NEAR(reading_scatter(i).value(), std::sqrt(100e-12 / 12 + 9e-12), 1e-18);
}

TEST(Instrument, ADifferenceHoldsTwoReadings) {
  Instrument i = dial();
  i.mpe = metres(12e-6);
  EXPECT_NEAR(difference_budget(i).standard().value(), std::sqrt(2.0) * reading_budget(i).standard().value(),
              1e-18);
  EXPECT_EQ(difference_budget(i).contributions[0].name, "graduation, two readings");
}

TEST(UncertaintyBudget, TruncatesEffectiveDofForTheCoverageFactor) {
  // t 0.975 with 4 dof, though ν_eff = 4.9.
  const UncertaintyBudget budget{.contributions = {{.name = "a", .u = metres(1), .dof = 4.9}}};
  EXPECT_NEAR(budget.coverage_factor(0.95), 2.7764451051977987, 1e-12);
  EXPECT_NEAR(budget.expanded(0.95).value(), 2.7764451051977987, 1e-12);
  const UncertaintyBudget little{.contributions = {{.name = "a", .u = metres(1), .dof = 0.5}}};
  EXPECT_NEAR(little.coverage_factor(0.95), 12.706204736174694, 1e-9);
}

TEST(UncertaintyBudget, EmptyIsZeroAndExactlyKnown) {
  EXPECT_EQ(UncertaintyBudget{}.standard().value(), 0);
  EXPECT_TRUE(std::isinf(UncertaintyBudget{}.effective_dof()));
}

TEST(UncertaintyBudget, NanometresDoNotUnderflow) {
  const UncertaintyBudget tiny{.contributions = {{.name = "a", .u = metres(1e-100), .dof = 7}}};
  EXPECT_NEAR(tiny.effective_dof(), 7, 1e-12);
}

TEST(UncertaintyBudget, RefusesFiguresThatAreNone) {
  for (const double bad : {-1.0, std::nan(""), HUGE_VAL}) {
    const UncertaintyBudget budget{.contributions = {{.name = "a", .u = metres(bad)}}};
    EXPECT_THROW(budget.standard(), BadInput);
  }
  const UncertaintyBudget no_dof{.contributions = {{.name = "a", .u = metres(1), .dof = 0}}};
  EXPECT_THROW(no_dof.standard(), BadInput);
  EXPECT_THROW(UncertaintyBudget{}.coverage_factor(1), BadInput);
  EXPECT_THROW(UncertaintyBudget{}.coverage_factor(0), BadInput);
}

TEST(Instrument, RefusesFiguresThatAreNone) {
  Instrument i = dial();
  i.graduation = metres(0);
  EXPECT_THROW(reading_budget(i), BadInput);
  i = dial();
  i.repeatability = metres(std::nan(""));
  EXPECT_THROW(reading_budget(i), BadInput);
  i = dial();
  i.repeatability_dof = 0;
  EXPECT_THROW(reading_budget(i), BadInput);
  i = dial();
  i.reading_half_width = metres(-1e-6);
  EXPECT_THROW(reading_scatter(i), BadInput);
}

}  // namespace
}  // namespace pumpwright

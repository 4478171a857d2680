#include "engine/reliability/cox.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "engine/reliability/proportional_hazards.h"
#include "lives.h"
#include "tests/support/refused.h"

namespace pumpwright::reliability {
namespace {

TEST(Cox, WorksOutByHand) {
  // Returns at 1 (x = 1), 2 (x = 0), 3 (x = 1), one running to 4 (x = 0). With θ = e^b the likelihood is
  // θ/(2θ+2) · 1/(θ+2) · θ/(θ+1), highest where 2/θ = 2/(θ+1) + 1/(θ+2).
  const auto list = lives({1, 2, 3}, {4});
  const std::vector<double> x{1, 0, 1, 0};
  const auto fit = fit_cox(list, {x, 1});
  ASSERT_TRUE(fit);
  const double t = fit->coefficients[0].ratio;
  EXPECT_NEAR(2 / t, 2 / (t + 1) + 1 / (t + 2), 1e-12);
  EXPECT_NEAR(fit->log_likelihood, std::log(t / (2 * t + 2) / (t + 2) * t / (t + 1)), 1e-12);
  EXPECT_NEAR(fit->log_likelihood_null, std::log(1.0 / 4 / 3 / 2), 1e-12);
}

TEST(Cox, AReadingInOtherUnitsChangesItsCoefficientAlone) {
  const auto list = lives({1, 2, 3, 5, 8}, {4, 9, 9});
  const std::vector<double> thou{3, 1, 4, 1, 2, 1.5, 1, 0.5};
  std::vector<double> metres_off;
  for (const double value : thou)
    metres_off.push_back(value * 25.4e-6 + 1000);
  const auto a = fit_cox(list, {thou, 1});
  const auto b = fit_cox(list, {metres_off, 1});
  ASSERT_TRUE(a && b);
  EXPECT_NEAR(a->coefficients[0].value, b->coefficients[0].value * 25.4e-6, 1e-6);
  EXPECT_NEAR(a->coefficients[0].p, b->coefficients[0].p, 1e-6);
}

TEST(Cox, GivesNothingWhereTheReadingPartsThePumpsCompletely) {
  const std::vector<double> x{1, 1, 0, 0};
  EXPECT_FALSE(fit_cox(lives({1, 2}, {3, 4}), {x, 1}));
  EXPECT_FALSE(fit_cox(lives({}, {1, 2, 3, 4}), {x, 1}));
  EXPECT_FALSE(proportional_hazards(lives({1, 2}, {3, 4}), {x, 1}));
}

TEST(Cox, RefusesReadingsThatSayNothing) {
  const auto list = lives({1, 2, 3}, {4});
  const std::vector<double> same{2, 2, 2, 2};
  EXPECT_EQ(testing::refused_field([&] { fit_cox(list, {same, 1}); }), "readings/0");
  const std::vector<double> twice{1, 2, 3, 6, 0, 0, 5, 10};
  EXPECT_EQ(testing::refused_field([&] { fit_cox(list, {twice, 2}); }), "readings/1");
  EXPECT_EQ(testing::refused_field([&] { fit_cox(list, {same, 2}); }), "readings");
  EXPECT_EQ(testing::refused_field([&] { fit_cox(list, {{}, 0}); }), "readings");
  const std::vector<double> bad{1, 2, std::numeric_limits<double>::quiet_NaN(), 0};
  EXPECT_EQ(testing::refused_field([&] { fit_cox(list, {bad, 1}); }), "readings/2/0");
}

TEST(ProportionalHazards, SeesAnEffectThatTurnsWithAge) {
  // The reading goes with early return in the first half and with late return in the second.
  std::vector<Life> list;
  std::vector<double> x;
  for (int i = 1; i <= 40; ++i) {
    list.push_back({seconds(i), Ending::returned});
    const bool is_early = i <= 20;
    x.push_back((i % 4 == 0) == is_early ? 0 : 1);
  }
  const auto found = proportional_hazards(list, {x, 1});
  ASSERT_TRUE(found);
  EXPECT_LT(found->all.p, 0.05);
  EXPECT_NEAR(found->all.chi_square, found->readings[0].chi_square, 1e-9);
}

TEST(ProportionalHazards, GivesNothingWhenAllReturnsCameAtOneAge) {
  const std::vector<double> x{1, 0, 1, 0, 0};
  EXPECT_FALSE(proportional_hazards(lives({2, 2, 2}, {3, 3}), {x, 1}));
}

}  // namespace
}  // namespace pumpwright::reliability

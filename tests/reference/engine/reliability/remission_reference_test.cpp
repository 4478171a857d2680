// Weeks of remission of 21 patients under 6-mercaptopurine and 21 under placebo: the example of Cox's paper
// of 1972, and of most books since.
#include <array>

#include <gtest/gtest.h>

#include "engine/reliability/comparison.h"
#include "engine/reliability/cox.h"
#include "engine/reliability/survival_curve.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

Lives treated() {
  Lives lives;
  for (const double weeks : {6., 6., 6., 7., 10., 13., 16., 22., 23.})
    lives.push_back({seconds(weeks), Ending::returned});
  for (const double weeks : {6., 9., 10., 11., 17., 19., 20., 25., 32., 32., 34., 35.})
    lives.push_back({seconds(weeks), Ending::running});
  return lives;
}

Lives placebo() {
  Lives lives;
  for (const double weeks :
       {1., 1., 2., 2., 3., 4., 4., 5., 5., 8., 8., 8., 8., 11., 11., 12., 12., 15., 17., 22., 23.})
    lives.push_back({seconds(weeks), Ending::returned});
  return lives;
}

TEST(RemissionReference, KaplanMeierHasThePublishedSteps) {
  const std::string source =
      "Klein and Moeschberger, Survival Analysis, 2nd ed., table 4.1 (data: Freireich 1963)";
  const std::array surviving{"0.857", "0.807", "0.753", "0.690", "0.627", "0.538", "0.448"};
  const std::array error{"0.0764", "0.0869", "0.0963", "0.1068", "0.1141", "0.1282", "0.1346"};
  const auto curve = survival_curve(treated());
  ASSERT_EQ(curve.steps.size(), surviving.size());
  for (std::size_t i = 0; i < surviving.size(); ++i) {
    const std::string at = "6-MP, step " + std::to_string(i);
    expect_outside(
        {at + ": surviving", source, Obtained::remembered, surviving[i], curve.steps[i].surviving, "", 3});
    expect_outside({at + ": standard error", source, Obtained::remembered, error[i],
                    curve.steps[i].standard_error, "", 3});
  }
  const auto median = time_until(survival_curve(placebo()), 0.5);
  ASSERT_TRUE(median.value);
  expect_outside({"placebo: median", source, Obtained::remembered, "8", median.value->value(), "weeks", 1});
}

TEST(RemissionReference, LogRankHasThePublishedFigures) {
  const std::string source = "Kleinbaum and Klein, Survival Analysis, ch. 2 (data: Freireich 1963)";
  const auto test = log_rank(std::array{treated(), placebo()});
  expect_outside({"log-rank, expected under 6-MP", source, Obtained::remembered, "19.25",
                  test.groups[0].expected, "", 4});
  expect_outside({"log-rank, expected under placebo", source, Obtained::remembered, "10.75",
                  test.groups[1].expected, "", 4});
  expect_outside({"log-rank", source, Obtained::remembered, "16.793", test.test.chi_square, "", 5});
}

TEST(RemissionReference, ProportionalHazardsHasThePublishedCoefficients) {
  Lives all = treated();
  const Lives rest = placebo();
  std::vector<double> is_placebo(all.size(), 0.0);
  all.insert(all.end(), rest.begin(), rest.end());
  is_placebo.resize(all.size(), 1.0);
  const auto check = [&](Ties ties, const std::string& what, const std::string& b, const std::string& error) {
    const auto fit = fit_cox(all, {is_placebo, 1}, ties);
    ASSERT_TRUE(fit);
    const std::string source = "worked examples on Freireich's data, many books";
    expect_outside(
        {what + ": coefficient", source, Obtained::remembered, b, fit->coefficients[0].value, "", 4});
    expect_outside({what + ": standard error", source, Obtained::remembered, error,
                    fit->coefficients[0].standard_error, "", 3});
  };
  check(Ties::efron, "placebo against 6-MP, Efron", "1.572", "0.412");
  check(Ties::breslow, "placebo against 6-MP, Breslow", "1.509", "0.410");
}

}  // namespace
}  // namespace pumpwright::testing

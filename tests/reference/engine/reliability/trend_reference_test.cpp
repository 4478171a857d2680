#include <cmath>

#include <gtest/gtest.h>

#include "engine/reliability/trend.h"
#include "live_lives.h"
#include "tests/support/outside_check.h"

namespace pumpwright::testing {
namespace {

using namespace pumpwright::reliability;

History history(const std::vector<double>& ages, double until) {
  History h{.returns = {}, .until = seconds(until)};
  for (const double age : ages)
    h.returns.push_back(seconds(age));
  return h;
}

// λ of λ·t^β.
double rate_factor(const Trend& t) {
  return std::pow(t.scale.value(), -t.shape);
}

TEST(TrendReference, AgreesWithTheHandbookAfterItsCorrection) {
  const std::string source =
      "NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.5.2 (10 failures in 1500 h)";
  const std::vector histories{history({5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478}, 1500)};
  const auto t = trend(histories);
  ASSERT_TRUE(t && t->corrected_shape);
  const double b = *t->corrected_shape;
  expect_outside({"growth slope", source, Obtained::remembered, "0.5165", 1 - b, "", 4});
  expect_outside({"factor", source, Obtained::remembered, "0.2913", 10 / std::pow(1500, b), "", 4});
  expect_outside({"MTBF at the end", source, Obtained::remembered, "310", 1500 / (10 * b), "h", 3});
}

TEST(TrendReference, ThreeSystemsStoppedTogetherHaveThePublishedEstimates) {
  const std::string source = "L. H. Crow (1974), three simulated systems to 200 h, also in MIL-HDBK-189";
  const std::vector histories{
      history({4.3, 4.4, 10.2, 23.5, 23.8, 26.4, 74.0, 77.1, 92.1, 197.2}, 200),
      history({0.1, 5.6, 18.6, 19.5, 24.2, 26.7, 45.1, 45.8, 75.7, 79.7, 98.6, 120.1, 161.8, 180.6, 190.8},
              200),
      history({8.4, 32.5, 44.7, 48.4, 50.6, 73.6, 98.7, 112.2, 129.8, 136.0, 195.8}, 200)};
  const auto t = trend(histories);
  ASSERT_TRUE(t);
  EXPECT_EQ(t->returned, 36U);
  expect_outside({"shape", source, Obtained::remembered, "0.615", t->shape, "", 3});
  expect_outside({"factor", source, Obtained::remembered, "0.461", rate_factor(*t), "", 3});
}

TEST(TrendReference, AFailureTerminatedTestHasThePublishedEstimates) {
  const std::string source = "MIL-HDBK-189 (1981), appendix C, 40 failures, stopped at the last";
  const std::vector histories{
      history({0.7,    3.7,    13.2,   17.6,   54.5,   99.2,   112.2,  120.9,  151.0,  163.0,
               174.5,  191.6,  282.8,  355.2,  486.3,  490.5,  513.3,  558.4,  678.1,  688.0,
               785.9,  887.0,  1010.7, 1029.1, 1034.4, 1136.1, 1178.9, 1259.7, 1297.9, 1419.7,
               1571.7, 1629.8, 1702.4, 1928.9, 2072.3, 2525.2, 2928.5, 3016.4, 3181.0, 3256.3},
              3256.3)};
  const auto t = trend(histories);
  ASSERT_TRUE(t);
  EXPECT_EQ(t->test_dof, 78);  // the last failure stopped the test and says nothing about a trend
  expect_outside({"shape", source, Obtained::remembered, "0.490", t->shape, "", 3});
  expect_outside({"factor", source, Obtained::remembered, "0.761", rate_factor(*t), "", 2});
}

TEST(TrendReference, PumpsOfDifferentAgesAgreeWithASearchInR) {
  const LiveRows live("trend");
  const std::vector histories{history({100, 620}, 900), history({340, 1100, 1990, 2410}, 2500),
                              history({260, 1500, 2600, 3100, 3950}, 4000)};
  const auto t = trend(histories);
  ASSERT_TRUE(t);
  live.expect("three pumps: shape", "shape", 0, t->shape, 7);
  live.expect("three pumps: scale", "scale", 0, t->scale.value(), 7);
  live.expect("three pumps: shape, low", "limits", 0, t->shape_low, 9);
  live.expect("three pumps: shape, high", "limits", 1, t->shape_high, 9);
  live.expect("three pumps: p of the trend test", "p", 0, t->p, 9);
  live.expect("three pumps: mean time at 4000", "mean", 0, t->mean_at_age.value(), 6);
  live.expect("three pumps: mean time, low", "mean_limits", 0, t->mean_at_age_low.value(), 6);
  live.expect("three pumps: mean time, high", "mean_limits", 1, t->mean_at_age_high.value(), 6);
}

}  // namespace
}  // namespace pumpwright::testing

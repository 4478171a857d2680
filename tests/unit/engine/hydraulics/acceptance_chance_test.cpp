#include "engine/hydraulics/acceptance_chance.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/support/given_pump.h"
#include "tests/support/refused.h"
#include "tests/support/thread_executor.h"

namespace pumpwright::hydraulics {
namespace {

using testing::measured_test;

const Guarantee promised{cubic_metres_per_second(0.01), metres(30), {}, {}};
const GradeRule confirmed{.confirmed = true, .own = {}};

SampledAcceptance sampled(const PerformanceModel& model, std::uint64_t samples, std::uint64_t seed,
                          Executor& executor) {
  return sample_acceptance(model, promised, confirmed, {samples, seed}, executor);
}

TEST(AcceptanceChance, AgreesWithTheLawOfPropagation) {
  const PerformanceModel model(measured_test(0.97));
  SerialExecutor serial;
  const auto drawn = sampled(model, 40'000, 1, serial);
  const auto linear = judge_acceptance(model, promised, confirmed);
  // The standard error of a standard deviation is sd/√(2N) = 0.35 %; the mean's is sd/√N.
  EXPECT_NEAR(drawn.head_sd_m, linear.head_at_flow.u, 0.015 * linear.head_at_flow.u);
  EXPECT_NEAR(drawn.head_mean_m, linear.head_at_flow.value, 5 * drawn.head_sd_m / 200 + 0.002);
  for (std::size_t g = 0; g < drawn.grades.size(); ++g)
    EXPECT_NEAR(drawn.grades[g].chance.value, linear.grades[g].chance, 0.04)
        << word_for(drawn.grades[g].grade);
}

TEST(AcceptanceChance, IsTheSameOnAnyNumberOfThreads) {
  const PerformanceModel model(measured_test(0.97));
  SerialExecutor serial;
  testing::ThreadExecutor three(3);
  testing::BackwardExecutor backward;
  const auto one = sampled(model, 5000, 7, serial);
  for (Executor* other : {static_cast<Executor*>(&three), static_cast<Executor*>(&backward)}) {
    const auto again = sampled(model, 5000, 7, *other);
    EXPECT_EQ(again.head_mean_m, one.head_mean_m);
    EXPECT_EQ(again.head_sd_m, one.head_sd_m);
    for (std::size_t g = 0; g < one.grades.size(); ++g)
      EXPECT_EQ(again.grades[g].chance.value, one.grades[g].chance.value);
  }
  EXPECT_NE(sampled(model, 5000, 8, serial).head_mean_m, one.head_mean_m);
}

// Points off the curve: the head at a flow is known like Student's t of 6 degrees of freedom, whose variance
// is 6/4 of the scale's square.
TEST(AcceptanceChance, ScatterKnownFromFewPointsHasTheTailsOfStudentsT) {
  auto test = testing::given_test();
  for (std::size_t i = 0; i < test.points.size(); ++i)
    test.points[i].discharge.value += pascals(i % 2 == 0 ? 500 : -500);
  const PerformanceModel model(test);
  SerialExecutor serial;
  const auto drawn = sampled(model, 40'000, 1, serial);
  const auto linear = judge_acceptance(model, promised, confirmed);
  EXPECT_NEAR(drawn.head_sd_m, std::sqrt(1.5) * linear.head_at_flow.u, 0.05 * linear.head_at_flow.u);
}

TEST(AcceptanceChance, TooFewSamplesAreRefused) {
  const PerformanceModel model(measured_test());
  SerialExecutor serial;
  EXPECT_EQ(testing::refused_field([&] { sampled(model, 999, 1, serial); }), "samples");
}

}  // namespace
}  // namespace pumpwright::hydraulics

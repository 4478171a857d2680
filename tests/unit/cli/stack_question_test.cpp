#include "cli/stack_question.h"

#include <gtest/gtest.h>

#include "cli/thread_executor.h"

namespace pumpwright {
namespace {

// One link of 10 mm ± 0.3 mm; a normal one has a standard deviation of 0.1 mm.
StackQuestion question(const std::string& distribution, const std::string& limits) {
  StackQuestion q;
  q.file = "chain.json";
  q.settings = {.samples = 10'000, .seed = 7};
  q.chain =
      decode_chain_file(R"({"format":"pumpwright-chain","version":1,"name":"n",)" + limits +
                        R"("links":[{"name":"a","nominal":"10 mm","tolerance":"0.3 mm","distribution":")" +
                        distribution + R"("}]})");
  return q;
}

StackVerdict verdict(const std::string& distribution, const std::string& limits) {
  SerialExecutor executor;
  return answer(question(distribution, limits), executor).verdict;
}

TEST(StackVerdict, PassesWhenEvenTheWorstCaseKeepsToTheLimits) {
  const auto v = verdict("rectangular", R"("limits":{"lower":"9.7 mm","upper":"10.3 mm"},)");
  EXPECT_EQ(v.word, "pass");
  EXPECT_EQ(v.reason, "worst-case-inside");
}

TEST(StackVerdict, TakesTheExactPartInsideWhenEveryLinkIsNormal) {
  // ± 3 standard deviations hold 99.7300204 %, just above the wanted 99.73 %.
  const auto v = verdict("normal", R"("limits":{"lower":"9.7 mm","upper":"10.3 mm"},)");
  EXPECT_NEAR(v.inside, 0.9973002, 1e-7);
  EXPECT_EQ(v.standard_error, 0);
  EXPECT_EQ(v.word, "pass");
  EXPECT_EQ(v.reason, "enough-inside");
}

TEST(StackVerdict, FailsWhenTooFewKeepToTheLimits) {
  EXPECT_EQ(verdict("normal", R"("limits":{"lower":"9.8 mm","upper":"10.2 mm"},)").word, "fail");
  EXPECT_EQ(verdict("rectangular", R"("limits":{"upper":"10.0 mm"},)").word, "fail");
}

TEST(StackVerdict, IsUnprovenWhenTheSampleIsTooSmallToTell) {
  // Exactly half lie inside, and half are wanted.
  const auto v = verdict("rectangular", R"("limits":{"upper":"10.0 mm","inside":0.5},)");
  EXPECT_EQ(v.word, "unproven");
  EXPECT_GT(v.standard_error, 0);
}

TEST(StackVerdict, IsSilentWithoutLimits) {
  EXPECT_EQ(verdict("normal", "").word, "");
}

TEST(StackAnswer, IsTheSameBitForBitOnAnyNumberOfThreads) {
  const auto q = question("arcsine", R"("limits":{"upper":"10.1 mm"},)");
  SerialExecutor serial;
  ThreadExecutor threads(5);
  EXPECT_EQ(stack_json(q, answer(q, serial)), stack_json(q, answer(q, threads)));
}

}  // namespace
}  // namespace pumpwright

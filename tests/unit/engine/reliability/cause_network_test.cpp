#include "engine/reliability/cause_network.h"

#include <gtest/gtest.h>

#include "tests/support/refused.h"

namespace pumpwright::reliability {
namespace {

using enum Seen;

// One cause of prior 1 % that brings its finding in 90 of 100 cases; 5 of 100 show it without.
CauseInference one() {
  return CauseInference({{0.01}, {0.05}, {{0, 0, 0.9}}});
}

TEST(CauseNetwork, OneCauseAndOneFindingGiveBayesRule) {
  const double with = 1 - 0.95 * 0.1;  // noisy-OR of cause and leak
  EXPECT_NEAR(one().posterior({present})[0], 0.01 * with / (0.01 * with + 0.99 * 0.05), 1e-15);
  EXPECT_NEAR(one().posterior({absent})[0], 0.01 * 0.1 / (0.01 * 0.1 + 0.99), 1e-15);
  EXPECT_NEAR(one().posterior({not_looked})[0], 0.01, 1e-15);
  EXPECT_NEAR(one().chance_of({present}), 0.01 * with + 0.99 * 0.05, 1e-15);
}

TEST(CauseNetwork, ACauseThatExplainsTheFindingLeavesLessToTheOther) {
  const CauseInference both({{0.1, 0.1}, {0.001}, {{0, 0, 0.8}, {1, 0, 0.8}}});
  const Evidence seen{present};
  const double alone = both.posterior(seen)[1];
  EXPECT_GT(alone, 0.4);
  EXPECT_LT(both.posterior_with(0, seen)[1], 0.15);
  EXPECT_EQ(both.posterior_with(0, seen)[0], 1);
}

TEST(CauseNetwork, SixteenFindingsThatAreThereAreTheMost) {
  const std::size_t n = 40;
  CauseNetwork net{{0.1, 0.2}, std::vector<double>(n, 0.01), {}};
  for (std::size_t f = 0; f < n; ++f)
    net.links.push_back({f % 2, f, 0.6});
  const CauseInference inference(net);
  Evidence seen(n, absent);
  std::fill(seen.begin(), seen.begin() + most_findings_present, present);
  EXPECT_GT(inference.posterior(seen)[0], 0);
  seen[most_findings_present] = present;
  EXPECT_EQ(testing::refused_field([&] { (void)inference.posterior(seen); }), "findings");
  EXPECT_EQ(testing::refused_field([&] { (void)inference.posterior({present}); }), "findings");
}

TEST(CauseNetwork, RefusesWhatIsNoNetwork) {
  const auto field = [](CauseNetwork net) {
    return testing::refused_field([&] { (void)CauseInference(std::move(net)); });
  };
  EXPECT_EQ(field({{0.1, 0}, {0.1}, {}}), "prior/1");
  EXPECT_EQ(field({{1.1}, {0.1}, {}}), "prior/0");
  EXPECT_EQ(field({{0.1}, {0.1, 1}, {}}), "leak/1");
  EXPECT_EQ(field({{0.1}, {0}, {}}), "leak/0");
  EXPECT_EQ(field({{0.1}, {0.1}, {{0, 0, 1}}}), "links/0");
  EXPECT_EQ(field({{0.1}, {0.1}, {{0, 1, 0.5}}}), "links/0");
  EXPECT_EQ(field({{0.1}, {0.1}, {{0, 0, 0.5}, {0, 0, 0.4}}}), "links/1");
}

}  // namespace
}  // namespace pumpwright::reliability

#include "engine/reliability/cause_diagnosis.h"

#include <cmath>

#include <gtest/gtest.h>

namespace pumpwright::reliability {
namespace {

using enum Seen;

// Two causes that share the first finding; the second and third tell them apart.
CauseInference two_rivals() {
  return CauseInference(
      {{0.1, 0.1}, {0.01, 0.01, 0.01}, {{0, 0, 0.8}, {1, 0, 0.8}, {0, 1, 0.8}, {1, 2, 0.3}}});
}

TEST(CauseDiagnosis, WhatFitsTwoCausesNamesNeitherAndSaysWhatWouldTell) {
  const auto found = diagnose(two_rivals(), {present, not_looked, not_looked});
  EXPECT_TRUE(found.named.empty());
  EXPECT_EQ(found.rivals, std::vector<std::size_t>{1});
  ASSERT_EQ(found.next.size(), 2U);
  EXPECT_EQ(found.next[0].finding, 1U);  // the stronger link tells more
  EXPECT_GT(found.next[0].bits, found.next[1].bits);
  EXPECT_GT(found.next[1].bits, 0);
}

TEST(CauseDiagnosis, NamesTheCauseOnceItsOwnFindingIsThere) {
  const auto found = diagnose(two_rivals(), {present, present, absent});
  EXPECT_EQ(found.named, std::vector<std::size_t>{0});
  EXPECT_TRUE(found.next.empty());
  const auto& first = found.ranked.front();
  EXPECT_EQ(first.cause, 0U);
  // Its own finding weighs most; that the rival's is not there speaks for it too, a little.
  ASSERT_EQ(first.evidence.size(), 3U);
  EXPECT_EQ(first.evidence[0].finding, 1U);
  EXPECT_EQ(first.evidence[2].finding, 2U);
  EXPECT_GT(first.evidence[2].weight, 0);
}

TEST(CauseDiagnosis, AWeightIsTheLogarithmOfTheOddsItChanges) {
  const CauseInference one({{0.2}, {0.05}, {{0, 0, 0.9}}});
  const auto found = diagnose(one, {present});
  // Odds change by P(finding | cause) / P(finding | no cause).
  EXPECT_NEAR(found.ranked[0].evidence.at(0).weight, std::log10((1 - 0.95 * 0.1) / 0.05), 1e-12);
  const auto against = diagnose(one, {absent});
  EXPECT_NEAR(against.ranked[0].evidence.at(0).weight, std::log10(0.1), 1e-12);
}

TEST(CauseDiagnosis, TwoCausesThatEachHaveTheirOwnFindingsAreNamedTogether) {
  const CauseInference apart({{0.05, 0.05}, {0.01, 0.01}, {{0, 0, 0.9}, {1, 1, 0.9}}});
  const auto found = diagnose(apart, {present, present});
  EXPECT_EQ(found.named, (std::vector<std::size_t>{0, 1}));
  EXPECT_TRUE(found.rivals.empty());
}

TEST(CauseDiagnosis, NothingLookedAtTellsNothing) {
  const auto found = diagnose(two_rivals(), {not_looked, not_looked, not_looked});
  EXPECT_TRUE(found.named.empty());
  EXPECT_EQ(found.next.size(), 3U);
}

TEST(CauseDiagnosis, WhatIsExpectedToBeLearntIsTheMutualInformation) {
  const CauseInference one({{0.2}, {0.05}, {{0, 0, 0.9}}});
  const auto found = diagnose(one, {not_looked});
  const auto h = [](double p) { return -p * std::log2(p) - (1 - p) * std::log2(1 - p); };
  const double there = 0.2 * (1 - 0.95 * 0.1) + 0.8 * 0.05;
  const double if_there = 0.2 * (1 - 0.95 * 0.1) / there, if_not = 0.2 * 0.95 * 0.1 / (1 - there);
  EXPECT_NEAR(found.next.at(0).chance, there, 1e-14);
  EXPECT_NEAR(found.next.at(0).bits, h(0.2) - there * h(if_there) - (1 - there) * h(if_not), 1e-12);
}

}  // namespace
}  // namespace pumpwright::reliability

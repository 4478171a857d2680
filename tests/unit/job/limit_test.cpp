#include "job/limit.h"

#include <gtest/gtest.h>

namespace pumpwright::job {
namespace {

Limit of_rank(Rank rank, const std::string& id) {
  Limit limit;
  limit.id = id;
  limit.rank = rank;
  return limit;
}

TEST(Limits, TheStrongerRankDecidesAndTheOthersStay) {
  std::vector<Limit> limits{of_rank(Rank::common_practice, "habit"), of_rank(Rank::standard, "standard"),
                            of_rank(Rank::job, "job"), of_rank(Rank::family, "family"),
                            of_rank(Rank::customer, "customer")};
  order_by_precedence(limits);
  std::vector<std::string> ids;
  for (const auto& l : limits)
    ids.push_back(l.id);
  EXPECT_EQ(ids, (std::vector<std::string>{"job", "customer", "family", "standard", "habit"}));
}

TEST(Limits, WithinARankThePreferredOneStaysFirst) {
  std::vector<Limit> limits{of_rank(Rank::standard, "preferred"), of_rank(Rank::standard, "other"),
                            of_rank(Rank::job, "job")};
  order_by_precedence(limits);
  EXPECT_EQ(limits[0].id, "job");
  EXPECT_EQ(limits[1].id, "preferred");
  EXPECT_EQ(limits[2].id, "other");
}

TEST(Limits, RankWordsReadBack) {
  for (const Rank rank : {Rank::job, Rank::customer, Rank::family, Rank::standard, Rank::common_practice})
    EXPECT_EQ(rank_from(word_of(rank)), rank);
  EXPECT_FALSE(rank_from("boss").has_value());
}

}  // namespace
}  // namespace pumpwright::job

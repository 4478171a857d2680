#include "catalog/source.h"

#include <gtest/gtest.h>

namespace pumpwright {
namespace {

TEST(Source, WordsOfObtainingReadBack) {
  for (const auto o : {Obtained::read, Obtained::remembered, Obtained::common_practice, Obtained::shop_rule})
    EXPECT_EQ(obtained_from(word_of(o)), o);
  EXPECT_EQ(obtained_from("heard"), std::nullopt);
  EXPECT_EQ(obtained_from(""), std::nullopt);
  EXPECT_EQ(obtained_from("Read"), std::nullopt);
}

TEST(Source, ARememberedOrHabitualLimitDecidesOnlyOnceTheShopSaysSo) {
  EXPECT_TRUE(may_decide(Obtained::read, false));
  EXPECT_TRUE(may_decide(Obtained::shop_rule, false));
  EXPECT_FALSE(may_decide(Obtained::remembered, false));
  EXPECT_FALSE(may_decide(Obtained::common_practice, false));
  EXPECT_TRUE(may_decide(Obtained::remembered, true));
  EXPECT_TRUE(may_decide(Obtained::common_practice, true));
}

TEST(Source, IsCitedInOneLineWithoutEmptyParts) {
  EXPECT_EQ(citation({"MG 1", "2011", "8.4", Obtained::read, "a note"}), "MG 1, 2011, 8.4 (read)");
  EXPECT_EQ(citation({"Pump shop practice", "", "", Obtained::common_practice, ""}),
            "Pump shop practice (common-practice)");
}

}  // namespace
}  // namespace pumpwright

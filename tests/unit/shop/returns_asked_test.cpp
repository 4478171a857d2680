#include "shop/returns_asked.h"

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

namespace pumpwright::shop {
namespace {

using reliability::Ending;

constexpr std::int64_t day_s = 86400;

// Thirty builds of fifteen families; those of "f0" are twice as many.
class ReturnsAskedOf : public ::testing::Test {
 protected:
  ReturnsAskedOf() {
    for (int i = 0; i < 15; ++i)
      names_.push_back("f" + std::to_string(i));
    for (int i = 0; i < 30; ++i) {
      KnownBuild known;
      known.number = known.serial = names_[static_cast<std::size_t>(i) % 15];
      known.pump = names_[i < 2 ? 0 : static_cast<std::size_t>(i) % 15];
      known.customer = i % 2 == 0 ? "greenhouse" : "";
      known.out_s = i * day_s;
      if (i != 4) known.readings[0] = 2.54e-5 * i;
      builds_.push_back(known);
    }
    for (const auto& known : builds_)
      lives_.push_back({&known, 10, Ending::returned, known.customer.empty()});
  }

  std::vector<std::string> names_;
  std::vector<KnownBuild> builds_;
  std::vector<BuildLife> lives_;
};

TEST_F(ReturnsAskedOf, AllBuildsOrThoseOfOneKind) {
  EXPECT_EQ(returns_question(lives_, {})->table.rows.size(), 30U);
  EXPECT_EQ(returns_question(lives_, {.customer = "greenhouse"})->table.rows.size(), 15U);
  EXPECT_FALSE(returns_question(lives_, {.customer = "aquarium"}));
  EXPECT_EQ(reasons_not_said(lives_, {}), 15U);
  EXPECT_EQ(reasons_not_said(lives_, {.pump = "f0"}), 1U);
}

TEST_F(ReturnsAskedOf, TimesAreInSecondsAndShownInDays) {
  const auto question = returns_question(lives_, {});
  EXPECT_DOUBLE_EQ(question->table.rows.front().time.value(), 10.0 * day_s);
  EXPECT_EQ(question->table.unit->symbol, "d");
  EXPECT_TRUE(question->is_calendar);
  EXPECT_FALSE(question->table.has_group);
}

TEST_F(ReturnsAskedOf, ManyGroupsAreTheLargestAndTheRestTogether) {
  const auto question = returns_question(lives_, {.by = BuildTrait::pump});
  std::vector<std::string> groups;
  for (const auto& row : question->table.rows)
    if (std::find(groups.begin(), groups.end(), row.group) == groups.end()) groups.push_back(row.group);
  EXPECT_EQ(groups.size(), groups_apart_max + 1);
  EXPECT_NE(std::find(groups.begin(), groups.end(), ""), groups.end());
  EXPECT_NE(std::find(groups.begin(), groups.end(), "f0"), groups.end());
}

TEST_F(ReturnsAskedOf, ADayPartsBuildsByWhenTheyWentOut) {
  const auto question = returns_question(lives_, {.changed_at_s = 10 * day_s});
  const auto before = std::count_if(question->table.rows.begin(), question->table.rows.end(),
                                    [](const job::ReturnsRow& row) { return row.group == "before"; });
  EXPECT_EQ(before, 10);
  EXPECT_TRUE(question->before_after);
  EXPECT_FALSE(returns_question(lives_, {.changed_at_s = -1})->before_after);  // none before
  EXPECT_FALSE(returns_question(lives_, {.changed_at_s = 99 * day_s})->before_after);
}

TEST_F(ReturnsAskedOf, ReadingsAreInThouAndMayBeMissing) {
  const auto question = returns_question(lives_, {.checks = {"impeller-sweep", "end-float"}});
  EXPECT_EQ(question->columns.covariates, (std::vector<std::string>{"impeller-sweep", "end-float"}));
  EXPECT_NEAR(question->table.rows[7].readings[0].value(), 7, 1e-12);
  EXPECT_FALSE(question->table.rows[4].readings[0]);
  EXPECT_FALSE(question->table.rows[7].readings[1]);
}

TEST_F(ReturnsAskedOf, TraitsComeMostFirstWithoutThoseNotSaid) {
  const auto pumps = traits_of(lives_, BuildTrait::pump);
  ASSERT_EQ(pumps.size(), 15U);
  EXPECT_EQ(pumps.front().value, "f0");
  EXPECT_EQ(pumps.front().builds, 3U);
  const auto customers = traits_of(lives_, BuildTrait::customer);
  ASSERT_EQ(customers.size(), 1U);
  EXPECT_EQ(customers.front().builds, 15U);
}

}  // namespace
}  // namespace pumpwright::shop

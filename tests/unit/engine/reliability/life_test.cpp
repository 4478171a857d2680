#include "engine/reliability/life.h"

#include <limits>

#include <gtest/gtest.h>

#include "lives.h"
#include "tests/support/refused.h"

namespace pumpwright::reliability {
namespace {

TEST(Life, CountsWhatEndedHow) {
  const auto list = lives({5, 5, 9}, {7}, {5, 9});
  EXPECT_EQ(count_of(list, Ending::returned), 3U);
  EXPECT_EQ(count_of(list, Ending::running), 1U);
  EXPECT_EQ(count_of(list, Ending::replaced), 2U);
  EXPECT_DOUBLE_EQ(total_time(list).value(), 40);
}

TEST(Life, PutsTheSameTimesTogether) {
  const auto times = ending_times(lives({9, 5, 5}, {7}, {5, 9}));
  ASSERT_EQ(times.size(), 3U);
  EXPECT_EQ(times[0].time.value(), 5);
  EXPECT_EQ(times[0].at_risk, 6U);
  EXPECT_EQ(times[0].returned, 2U);
  EXPECT_EQ(times[0].replaced, 1U);
  EXPECT_EQ(times[1].at_risk, 3U);
  EXPECT_EQ(times[1].running, 1U);
  EXPECT_EQ(times[2].at_risk, 2U);
}

TEST(Life, RefusesWhatCanNotBeALife) {
  EXPECT_EQ(testing::refused_field([] { require_valid({}); }), "lives");
  for (const double bad :
       {0.0, -1.0, std::numeric_limits<double>::infinity(), std::numeric_limits<double>::quiet_NaN()})
    EXPECT_EQ(testing::refused_field([&] { require_valid(lives({5, bad})); }), "lives/1/time") << bad;
}

}  // namespace
}  // namespace pumpwright::reliability

#include "server/target.h"

#include <gtest/gtest.h>

namespace pumpwright::server {
namespace {

TEST(Target, SplitsPathAndQueryAndDecodesEachPart) {
  const auto target = parse_target("/api/jobs/A%2F1%20x?q=a+b%26c&limit=5&bare");
  ASSERT_TRUE(target);
  EXPECT_EQ(target->segments, (std::vector<std::string>{"api", "jobs", "A/1 x"}));
  EXPECT_EQ(target->asked("q"), "a b&c");
  EXPECT_EQ(target->asked("limit"), "5");
  EXPECT_EQ(target->asked("bare"), "");
  EXPECT_EQ(target->asked("other"), std::nullopt);
}

TEST(Target, TakesTheRootAndSkipsEmptySegments) {
  EXPECT_TRUE(parse_target("/")->segments.empty());
  EXPECT_EQ(parse_target("//a///b/")->segments, (std::vector<std::string>{"a", "b"}));
}

TEST(Target, APlusInThePathStaysAPlus) {
  EXPECT_EQ(parse_target("/a+b")->segments.front(), "a+b");
}

TEST(Target, TakesTextOutsideAscii) {
  EXPECT_EQ(parse_target("/caf%C3%A9")->segments.front(), "caf\xC3\xA9");
}

class RefusedTarget : public testing::TestWithParam<const char*> {};

TEST_P(RefusedTarget, IsNothing) {
  EXPECT_FALSE(parse_target(GetParam())) << GetParam();
}

INSTANTIATE_TEST_SUITE_P(Targets, RefusedTarget,
                         testing::Values("", "api", "http://host/api", "*", "/a#b", "/%", "/%4", "/%zz",
                                         "/%00", "/%0a", "/%7f", "/../x", "/a/../b", "/a/%2e%2e/b", "/.",
                                         "/%2E", "/%ff", "/%c0%80", "/%ed%a0%80", "/%f5%80%80%80", "/a?x=%00",
                                         "/a?%zz=1"));

TEST(Target, RefusesWhatIsTooLongAndTooManyFields) {
  EXPECT_TRUE(parse_target("/" + std::string(target_bytes_max - 1, 'a')));
  EXPECT_FALSE(parse_target("/" + std::string(target_bytes_max, 'a')));
  std::string query = "/a?";
  for (std::size_t i = 0; i < query_fields_max; ++i)
    query += "x&";
  EXPECT_TRUE(parse_target(query));
  EXPECT_FALSE(parse_target(query + "x"));
}

}  // namespace
}  // namespace pumpwright::server

#include "server/router.h"

#include <gtest/gtest.h>

namespace pumpwright::server {
namespace {

HttpResponse nothing(const Call& /*call*/) {
  return {};
}

Router sample() {
  std::vector<Route> routes;
  for (const auto& [method, pattern] :
       std::vector<std::pair<const char*, const char*>>{{"GET", "/api/jobs"},
                                                        {"POST", "/api/jobs"},
                                                        {"GET", "/api/jobs/{number}"},
                                                        {"GET", "/api/jobs/{number}/record.pdf"},
                                                        {"GET", "/api/jobs/{number}/drawings/{name}.svg"}})
    routes.push_back({.method = method, .pattern = pattern, .allowed = allow::signed_in, .handler = nothing});
  return Router(std::move(routes));
}

TEST(Router, FindsTheRowOfMethodAndPath) {
  const auto router = sample();
  const auto found = router.match("POST", *parse_target("/api/jobs"));
  ASSERT_NE(found.route, nullptr);
  EXPECT_EQ(found.route->method, "POST");
  EXPECT_EQ(found.route->pattern, "/api/jobs");
}

TEST(Router, GivesTheNamedPartsOfThePath) {
  const auto router = sample();
  const auto found = router.match("GET", *parse_target("/api/jobs/G%2F17/drawings/sweep%3Ashaft.svg"));
  ASSERT_NE(found.route, nullptr);
  EXPECT_EQ(found.path.at("number"), "G/17");
  EXPECT_EQ(found.path.at("name"), "sweep:shaft");
}

TEST(Router, ANameNeverStandsForNothing) {
  const auto router = sample();
  EXPECT_EQ(router.match("GET", *parse_target("/api/jobs/7/drawings/.svg")).route, nullptr);
}

TEST(Router, HeadIsAnsweredByTheRowOfGet) {
  EXPECT_NE(sample().match("HEAD", *parse_target("/api/jobs/7")).route, nullptr);
}

TEST(Router, TellsWhichMethodsAPathHas) {
  const auto found = sample().match("DELETE", *parse_target("/api/jobs"));
  EXPECT_EQ(found.route, nullptr);
  EXPECT_EQ(found.other_methods, "GET, POST");
}

TEST(Router, KnowsNoLongerOrShorterPath) {
  const auto router = sample();
  for (const auto* path :
       {"/", "/api", "/api/jobs/7/record.pdf/x", "/api/jobs/7/record.pd", "/api/job", "/API/jobs"}) {
    const auto found = router.match("GET", *parse_target(path));
    EXPECT_EQ(found.route, nullptr) << path;
    EXPECT_TRUE(found.other_methods.empty()) << path;
  }
}

TEST(Allowed, IncludesExactlyTheRolesItNames) {
  EXPECT_TRUE(allow::bench_hands.includes(shop::Role::technician));
  EXPECT_TRUE(allow::bench_hands.includes(shop::Role::lead_hand));
  EXPECT_FALSE(allow::bench_hands.includes(shop::Role::office));
  EXPECT_FALSE(allow::bench_hands.includes(shop::Role::read_only));
  EXPECT_TRUE(allow::job_openers.includes(shop::Role::office));
  EXPECT_FALSE(allow::job_openers.includes(shop::Role::read_only));
  EXPECT_FALSE(allow::lead_hand.includes(shop::Role::technician));
  EXPECT_TRUE(allow::signed_in.includes(shop::Role::read_only));
}

}  // namespace
}  // namespace pumpwright::server

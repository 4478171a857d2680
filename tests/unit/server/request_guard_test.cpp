#include "server/request_guard.h"

#include <gtest/gtest.h>

namespace pumpwright::server {
namespace {

HttpRequest request_with(std::vector<HeaderField> headers, bool secure = false) {
  HttpRequest request;
  request.method = "POST";
  request.headers = std::move(headers);
  request.secure = secure;
  return request;
}

TEST(HostNames, LoopbackNamesAndNamedOnesAreOurs) {
  const HostNames names({"Shop.Local", "192.168.7.2"});
  for (const auto* ours : {"localhost", "localhost:8080", "LOCALHOST:1", "127.0.0.1:8080", "[::1]",
                           "[::1]:8080", "shop.local", "shop.local.:8443", "192.168.7.2:8443"})
    EXPECT_TRUE(names.ours(ours, "127.0.0.1")) << ours;
}

TEST(HostNames, AForeignNameIsNotOurs) {
  const HostNames names({"shop.local"});
  for (const auto* foreign :
       {"evil.example", "shop.local.evil.example", "127.0.0.1.evil.example", "localhost@evil.example", "",
        ":8080", "localhost:", "localhost:80x", "localhost:123456", "[::1", "a b", "10.0.0.9",
        "localhost,evil.example", "localhost/"})
    EXPECT_FALSE(names.ours(foreign, "127.0.0.1")) << foreign;
}

TEST(HostNames, TheAddressTheConnectionCameInOnIsOurs) {
  const HostNames names({});
  EXPECT_TRUE(names.ours("10.0.0.9:8443", "10.0.0.9"));
  EXPECT_FALSE(names.ours("10.0.0.9:8443", "10.0.0.8"));
}

TEST(Headers, ThatDecideAboutSafetyComeOnce) {
  EXPECT_FALSE(has_doubtful_headers(request_with({{"host", "a"}, {"accept", "x"}, {"accept", "y"}})));
  EXPECT_TRUE(has_doubtful_headers(request_with({})));
  for (const auto* name : {"host", "origin", "cookie", "content-type", "x-pumpwright-token", "last-event-id"})
    EXPECT_TRUE(has_doubtful_headers(request_with({{"host", "a"}, {name, "1"}, {name, "1"}}))) << name;
}

TEST(Origin, IsTheHostItself) {
  EXPECT_TRUE(from_our_own_page(request_with({{"host", "localhost:8080"}})));
  EXPECT_TRUE(
      from_our_own_page(request_with({{"host", "localhost:8080"}, {"origin", "http://localhost:8080"}})));
  EXPECT_TRUE(
      from_our_own_page(request_with({{"host", "Shop.local"}, {"origin", "https://shop.local"}}, true)));
  EXPECT_TRUE(from_our_own_page(request_with({{"host", "localhost"}, {"sec-fetch-site", "same-origin"}})));
}

TEST(Origin, OfAnotherPageIsRefused) {
  for (const auto* origin :
       {"http://evil.example", "null", "", "http://localhost:8081", "https://localhost:8080",
        "http://localhost:8080.evil.example", "http://localhost"})
    EXPECT_FALSE(from_our_own_page(request_with({{"host", "localhost:8080"}, {"origin", origin}}))) << origin;
  for (const auto* site : {"cross-site", "same-site"})
    EXPECT_FALSE(from_our_own_page(request_with({{"host", "localhost:8080"}, {"sec-fetch-site", site}})))
        << site;
}

TEST(Methods, ThatOnlyReadChangeNothing) {
  EXPECT_FALSE(changes_something("GET"));
  EXPECT_FALSE(changes_something("HEAD"));
  for (const auto* method : {"POST", "PUT", "DELETE", "PATCH", "get", ""})
    EXPECT_TRUE(changes_something(method)) << method;
}

}  // namespace
}  // namespace pumpwright::server

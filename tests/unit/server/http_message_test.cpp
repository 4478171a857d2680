// Requests and answers as plain data: cookies, headers, heads.
#include <gtest/gtest.h>

#include "server/http_request.h"
#include "server/http_text.h"
#include "server/security_headers.h"
#include "server/set_cookie.h"

namespace pumpwright::server {
namespace {

HttpRequest with_cookies(const std::string& text) {
  HttpRequest request;
  request.headers.push_back({"cookie", text});
  return request;
}

TEST(Cookie, IsFoundByItsWholeName) {
  const auto request = with_cookies("xa=1; a=2;b=3 ; c=4=5");
  EXPECT_EQ(cookie(request, "a"), "2");
  EXPECT_EQ(cookie(request, "b"), "3");
  EXPECT_EQ(cookie(request, "c"), "4=5");
  EXPECT_EQ(cookie(request, "x"), std::nullopt);
  EXPECT_EQ(cookie(HttpRequest{}, "a"), std::nullopt);
}

TEST(Cookie, IsNotFoundInBrokenText) {
  EXPECT_EQ(cookie(with_cookies(";;;a;=;"), "a"), std::nullopt);
  EXPECT_EQ(cookie(with_cookies(""), "a"), std::nullopt);
}

TEST(SetCookie, IsNeverReadableByScriptsOrSentFromOtherSites) {
  HttpResponse response;
  set_cookie(response, {.name = "n", .value = "v", .seconds = 60, .secure = true});
  EXPECT_EQ(response.headers.front().value, "n=v; Path=/; HttpOnly; SameSite=Strict; Secure; Max-Age=60");
  HttpResponse plain;
  set_cookie(plain, {.name = "n", .value = "v", .seconds = std::nullopt, .secure = false});
  EXPECT_EQ(plain.headers.front().value, "n=v; Path=/; HttpOnly; SameSite=Strict");
}

TEST(ResponseHead, HasStatusLengthAndConnection) {
  HttpResponse response;
  response.body = "12345";
  response.set("X-A", "b");
  EXPECT_EQ(response_head(response, true, 1'764'078'300),
            "HTTP/1.1 200 OK\r\nDate: Tue, 25 Nov 2025 13:45:00 GMT\r\nX-A: b\r\nContent-Length: 5\r\n"
            "Connection: keep-alive\r\n\r\n");
}

TEST(ResponseHead, LetsNoValueBeginAHeaderOfItsOwn) {
  HttpResponse response;
  response.set("X-A", "b\r\nSet-Cookie: evil=1");
  EXPECT_EQ(response_head(response, false, 0).find("\r\nSet-Cookie"), std::string::npos);
}

TEST(ResponseHead, HasNoLengthWhereThereIsNoBody) {
  HttpResponse response;
  response.status = 204;
  EXPECT_EQ(response_head(response, true, 0).find("Content-Length"), std::string::npos);
}

TEST(SecurityHeaders, AreOnDataAndPage) {
  for (const bool api : {true, false}) {
    HttpResponse response;
    add_security_headers(response, {.api = api, .secure = false});
    const auto head = response_head(response, true, 0);
    EXPECT_NE(head.find("Content-Security-Policy: default-src 'self';"), std::string::npos);
    EXPECT_NE(head.find("frame-ancestors 'none'"), std::string::npos);
    EXPECT_NE(head.find("X-Content-Type-Options: nosniff"), std::string::npos);
    EXPECT_NE(head.find("Referrer-Policy: no-referrer"), std::string::npos);
    EXPECT_NE(head.find("Permissions-Policy: camera=(self), serial=(self)"), std::string::npos);
    EXPECT_NE(head.find("Cross-Origin-Opener-Policy: same-origin"), std::string::npos);
    EXPECT_NE(head.find("Cross-Origin-Resource-Policy: same-origin"), std::string::npos);
    EXPECT_EQ(head.find("Cache-Control: no-store") != std::string::npos, api);
    EXPECT_EQ(head.find("Strict-Transport-Security"), std::string::npos);
  }
}

TEST(SecurityHeaders, MakeDataAFileForWhoOpensThemAsAPage) {
  const auto disposition_of = [](const std::string& type, bool api) {
    HttpResponse response;
    response.set("Content-Type", type);
    add_security_headers(response, {.api = api, .secure = false});
    return response_head(response, true, 0).find("Content-Disposition: attachment; filename=\"api.json\"") !=
           std::string::npos;
  };
  EXPECT_TRUE(disposition_of("application/json; charset=utf-8", true));
  EXPECT_FALSE(disposition_of("image/svg+xml", true));
  EXPECT_FALSE(disposition_of("application/json", false));
}

TEST(SecurityHeaders, AskForTlsOnlyUnderTlsAndLeaveWhatIsSet) {
  HttpResponse response;
  response.set("Content-Security-Policy", "sandbox");
  add_security_headers(response, {.api = false, .secure = true});
  const auto head = response_head(response, true, 0);
  EXPECT_NE(head.find("Strict-Transport-Security: max-age="), std::string::npos);
  EXPECT_NE(head.find("Content-Security-Policy: sandbox\r\n"), std::string::npos);
  EXPECT_EQ(head.find("default-src"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::server

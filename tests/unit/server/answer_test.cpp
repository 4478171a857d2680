// What is said to people: errors in both languages, the log's lines, the tag; and what is read from the
// command line.
#include <algorithm>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"
#include "server/media_type.h"
#include "server/problem.h"
#include "server/request_log.h"
#include "server/server.h"
#include "server/tag_svg.h"
#include "shop/refused.h"
#include "store/store_error.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

HttpResponse answer_to(const std::exception_ptr& exception) {
  return error_answer(problem_of(exception));
}

json error_in(const HttpResponse& response) {
  return json::parse(response.body).at("error");
}

TEST(Problem, BadInputNamesFieldValueAndWhatIsValid) {
  const auto response = answer_to(std::make_exception_ptr(BadInput(
      {.field = "reading", .place = "/sweep", .value = "7 thuo", .expected = "a length such as 7 thou"})));
  EXPECT_EQ(response.status, 422);
  const auto error = error_in(response);
  EXPECT_EQ(error.at("code"), "bad-input");
  EXPECT_EQ(error.at("field"), "reading");
  EXPECT_EQ(error.at("value"), "7 thuo");
  EXPECT_EQ(error.at("valid"), "a length such as 7 thou");
  EXPECT_NE(error.at("text").at("es"), error.at("text").at("en"));
}

TEST(Problem, TheShopsRefusalsKeepTheirWords) {
  using shop::Refusal;
  using shop::Refused;
  const job::Text text{.en = "no", .es = "que no"};
  for (const auto& [refusal, status, code] :
       {std::tuple(Refusal::not_allowed, 403, "not-allowed"),
        std::tuple(Refusal::not_found, 404, "not-found"), std::tuple(Refusal::conflict, 409, "conflict")}) {
    const auto response = answer_to(std::make_exception_ptr(Refused(refusal, text)));
    EXPECT_EQ(response.status, status);
    EXPECT_EQ(error_in(response).at("code"), code);
    EXPECT_EQ(error_in(response).at("text").at("es"), "que no");
  }
}

TEST(Problem, AFailingStoreIsToldApart) {
  using store::StoreErrorCode;
  for (const auto& [failure, status, code] :
       {std::tuple(StoreErrorCode::disk_full, 507, "disk-full"),
        std::tuple(StoreErrorCode::read_only, 503, "read-only-store"),
        std::tuple(StoreErrorCode::busy, 503, "busy"), std::tuple(StoreErrorCode::corrupt, 500, "internal"),
        std::tuple(StoreErrorCode::io, 500, "internal")}) {
    const auto response =
        answer_to(std::make_exception_ptr(store::StoreError(failure, "page 7 of /data/secret")));
    EXPECT_EQ(response.status, status);
    EXPECT_EQ(error_in(response).at("code"), code);
    EXPECT_EQ(response.body.find("secret"), std::string::npos);
  }
}

TEST(Problem, NothingInternalGetsOutButTheLogHasIt) {
  std::string log;
  const auto response =
      error_answer(problem_of(std::make_exception_ptr(std::logic_error("invariant at 0x1234")), &log));
  EXPECT_EQ(response.status, 500);
  EXPECT_EQ(response.body.find("0x1234"), std::string::npos);
  EXPECT_EQ(log, "invariant at 0x1234");
}

TEST(Problem, TooManySaysHowLongToWait) {
  const auto response = answer_to(std::make_exception_ptr(too_many(8)));
  EXPECT_EQ(response.status, 429);
  const auto after = std::find_if(response.headers.begin(), response.headers.end(),
                                  [](const auto& field) { return field.name == "Retry-After"; });
  ASSERT_NE(after, response.headers.end());
  EXPECT_EQ(after->value, "8");
}

TEST(JsonAnswer, BytesThatAreNoTextDoNotSpoilTheRest) {
  const auto response = json_answer(200, {{"a", "x\xFFy"}});
  EXPECT_TRUE(json::accept(response.body)) << response.body;
}

TEST(RequestLine, HasNoQueryAndCanNotBeForged) {
  const auto line = request_line({.method = "GET",
                                  .target = "/a\r\nforged?q=secret",
                                  .peer = "10.0.0.1",
                                  .person = "",
                                  .status = 200,
                                  .bytes = 12,
                                  .took = std::chrono::microseconds(1500)},
                                 0);
  EXPECT_EQ(line, "1970-01-01T00:00:00.000Z 10.0.0.1 - GET /a??forged 200 12 B 1.5 ms");
}

TEST(Log, IsQuietAboutRequestsWhenAsked) {
  std::ostringstream out;
  Log log(out, true);
  log.request({}, 0);
  EXPECT_EQ(out.str(), "");
  log.say("x");
  EXPECT_EQ(out.str(), "x\n");
}

TEST(MediaType, IsToldByTheFirstBytes) {
  EXPECT_EQ(media_type_of("\xFF\xD8\xFF\xE0..."), "image/jpeg");
  EXPECT_EQ(media_type_of("\x89PNG\r\n\x1A\n..."), "image/png");
  EXPECT_EQ(media_type_of("RIFF....WEBPVP8 "), "image/webp");
  EXPECT_EQ(media_type_of("%PDF-1.7"), "application/pdf");
  for (const auto* other : {"", "<svg", "<html>", "GIF89a", "RIFF", "\xFF\xD8"})
    EXPECT_EQ(media_type_of(other), "") << other;
  EXPECT_EQ(plain_media_type(" Image/PNG ; q=1"), "image/png");
  EXPECT_FALSE(may_be_attached("image/svg+xml"));
  EXPECT_FALSE(may_be_attached("text/html"));
}

TEST(Tag, ShowsNumberAndHashAndEscapesWhatPeopleWrote) {
  job::JobHeader header;
  header.number = "G-2117";
  header.customer = "<script>alert(1)</script> & sons \"greenhouses\"";
  header.pump = std::string(100, 'x');
  const auto svg = tag_svg(header, std::string(64, 'a'));
  EXPECT_TRUE(svg.starts_with("<svg "));
  EXPECT_NE(svg.find(">G-2117<"), std::string::npos);
  EXPECT_EQ(svg.find("<script"), std::string::npos);
  EXPECT_NE(svg.find("&lt;script"), std::string::npos);
  EXPECT_NE(svg.find("xxxx…"), std::string::npos);
}

TEST(ListenAddress, IsLoopbackUnlessSaid) {
  EXPECT_EQ(parse_listen_address("8080").address, "127.0.0.1");
  EXPECT_EQ(parse_listen_address(":9000").port, 9000);
  EXPECT_EQ(parse_listen_address("localhost:1").address, "127.0.0.1");
  EXPECT_EQ(parse_listen_address("[::1]:8443").address, "::1");
  EXPECT_EQ(parse_listen_address("0.0.0.0:0").port, 0);
  EXPECT_TRUE(is_loopback("127.3.2.1"));
  EXPECT_TRUE(is_loopback("::1"));
  EXPECT_FALSE(is_loopback("0.0.0.0"));
  EXPECT_FALSE(is_loopback("192.168.1.2"));
}

TEST(ListenAddress, RefusesWhatIsNone) {
  for (const auto* text :
       {"", "shop:80", "127.0.0.1", "127.0.0.1:", "127.0.0.1:70000", "::1:80", "1.2.3:80", "80x", "-1"})
    EXPECT_THROW(parse_listen_address(text), BadInput) << text;
}

}  // namespace
}  // namespace pumpwright::server

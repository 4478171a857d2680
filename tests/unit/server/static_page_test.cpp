#include "server/static_page.h"

#include <array>

#include <gtest/gtest.h>

namespace pumpwright::server {
namespace {

constexpr std::array<PageFile, 3> files{{
    {.name = "assets/app-1a2b3c4d.js",
     .content_type = "text/javascript; charset=utf-8",
     .digest = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef",
     .plain = "plain script",
     .gzip = "gz script",
     .brotli = "br script"},
    {.name = "icon.png",
     .content_type = "image/png",
     .digest = "aa",
     .plain = "icon",
     .gzip = {},
     .brotli = {}},
    {.name = "index.html",
     .content_type = "text/html; charset=utf-8",
     .digest = "bb",
     .plain = "page",
     .gzip = "gz page",
     .brotli = {}},
}};

HttpResponse get(const std::string& path, std::vector<HeaderField> headers = {}) {
  HttpRequest request;
  request.method = "GET";
  request.target = path;
  request.headers = std::move(headers);
  return StaticPage(files).answer(request, *parse_target(path));
}

std::string header(const HttpResponse& response, const std::string& name) {
  for (const auto& field : response.headers)
    if (field.name == name) return field.value;
  return "(none)";
}

TEST(StaticPage, GivesAFileWithItsType) {
  const auto response = get("/icon.png");
  EXPECT_EQ(response.status, 200);
  EXPECT_EQ(response.content(), "icon");
  EXPECT_EQ(header(response, "Content-Type"), "image/png");
  EXPECT_EQ(header(response, "Content-Encoding"), "(none)");
}

TEST(StaticPage, ChoosesTheSmallestFormTheBrowserTakes) {
  const std::string script = "/assets/app-1a2b3c4d.js";
  EXPECT_EQ(get(script).content(), "plain script");
  EXPECT_EQ(get(script, {{"accept-encoding", "gzip, deflate, br"}}).content(), "br script");
  EXPECT_EQ(get(script, {{"accept-encoding", "gzip"}}).content(), "gz script");
  EXPECT_EQ(get(script, {{"accept-encoding", "br;q=0, gzip;q=0.5"}}).content(), "gz script");
  EXPECT_EQ(get(script, {{"accept-encoding", "identity"}}).content(), "plain script");
  EXPECT_EQ(header(get(script, {{"accept-encoding", "br"}}), "Content-Encoding"), "br");
  EXPECT_EQ(header(get(script), "Vary"), "Accept-Encoding");
}

TEST(StaticPage, UnknownPathsWithoutADotAreThePages) {
  for (const auto* path : {"/", "/jobs/G-2117", "/shop", "/a/b/c"}) {
    EXPECT_EQ(get(path).content(), "page") << path;
    EXPECT_EQ(header(get(path), "Cache-Control"), "no-cache") << path;
  }
}

TEST(StaticPage, UnknownFilesAreNotFound) {
  for (const auto* path :
       {"/x.js", "/assets/app.js", "/index.html/x.css", "/etc%2Fpasswd.txt", "/icon.png%2F..%2Findex.html"})
    EXPECT_EQ(get(path).status, 404) << path;
}

TEST(StaticPage, HashedFilesAreKeptForGoodAndOthersAskedFor) {
  EXPECT_EQ(header(get("/assets/app-1a2b3c4d.js"), "Cache-Control"), "public, max-age=31536000, immutable");
  EXPECT_EQ(header(get("/icon.png"), "Cache-Control"), "no-cache");
}

TEST(StaticPage, WhatTheBrowserHasIsNotSentAgain) {
  const auto tag = header(get("/assets/app-1a2b3c4d.js", {{"accept-encoding", "br"}}), "ETag");
  EXPECT_EQ(tag, "\"0123456789abcdef0123456789abcdef-br\"");
  const auto again =
      get("/assets/app-1a2b3c4d.js", {{"accept-encoding", "br"}, {"if-none-match", "\"x\", W/" + tag}});
  EXPECT_EQ(again.status, 304);
  EXPECT_TRUE(again.content().empty());
  EXPECT_EQ(header(again, "ETag"), tag);
  EXPECT_EQ(get("/assets/app-1a2b3c4d.js", {{"accept-encoding", "gzip"}, {"if-none-match", tag}}).status,
            200);
}

TEST(StaticPage, ABuildWithoutItSaysSo) {
  HttpRequest request;
  const auto response = StaticPage({}).answer(request, *parse_target("/"));
  EXPECT_EQ(response.status, 404);
  EXPECT_NE(response.body.find("was not built"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::server

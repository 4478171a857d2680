#include "server/content_coding.h"

#include <cstdint>
#include <string>
#include <utility>

#include <gtest/gtest.h>
#include <zlib.h>

namespace pumpwright::server {
namespace {

const std::string long_json = "{\"text\":\"" + std::string(5000, 'x') + "\"}";

HttpResponse answer_of(const std::string& type, const std::string& body) {
  HttpResponse response;
  response.set("Content-Type", type);
  response.body = body;
  return response;
}

HttpRequest request_taking(const std::string& accept_encoding) {
  HttpRequest request;
  if (!accept_encoding.empty()) request.headers.push_back({"accept-encoding", accept_encoding});
  return request;
}

std::string header(const HttpResponse& response, const std::string& name) {
  for (const auto& field : response.headers)
    if (field.name == name) return field.value;
  return "(none)";
}

// What another program makes of gzip bytes: header, checksum and length are looked at by zlib.
std::string unpacked(std::string bytes) {
  z_stream stream{};
  EXPECT_EQ(inflateInit2(&stream, 15 + 16), Z_OK);
  std::string out(std::size_t{4} << 20, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(bytes.data());
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  EXPECT_EQ(inflate(&stream, Z_FINISH), Z_STREAM_END);
  EXPECT_EQ(stream.avail_in, 0U);
  out.resize(stream.total_out);
  inflateEnd(&stream);
  return out;
}

TEST(AcceptEncoding, FollowsTheWeights) {
  EXPECT_TRUE(accepts_coding("*", "br"));
  EXPECT_FALSE(accepts_coding("*;q=0", "br"));
  EXPECT_TRUE(accepts_coding("*;q=0, br", "br"));
  EXPECT_FALSE(accepts_coding("br;q=0.0, *", "br"));
  EXPECT_TRUE(accepts_coding(" GZIP ; q=0.1", "gzip"));
  EXPECT_TRUE(accepts_coding("gzip;Q=1", "gzip"));
  EXPECT_FALSE(accepts_coding("gzip;Q=0", "gzip"));
  EXPECT_FALSE(accepts_coding("", "gzip"));
  EXPECT_FALSE(accepts_coding("gzipx", "gzip"));
  EXPECT_DOUBLE_EQ(coding_weight("br;q=0.5, gzip;q=0.25", "gzip"), 0.25);
}

TEST(Gzip, GivesBackEveryByte) {
  std::string noise;  // nothing in it repeats: the worst case for the bound
  std::uint32_t state = 1;
  for (int i = 0; i < 1'000'000; ++i) {
    state = state * 1664525U + 1013904223U;
    noise += static_cast<char>(state >> 24U);
  }
  for (const auto& bytes : {std::string(), std::string("x"), std::string("a\0b", 3), long_json, noise})
    EXPECT_TRUE(unpacked(gzip(bytes)) == bytes) << bytes.size();
}

TEST(CompressAnswer, MakesALongAnswerShort) {
  auto response = answer_of("application/json; charset=utf-8", long_json);
  compress_answer(response, request_taking("gzip, deflate, br"));
  EXPECT_EQ(header(response, "Content-Encoding"), "gzip");
  EXPECT_EQ(header(response, "Vary"), "Accept-Encoding");
  EXPECT_LT(response.content().size(), 100U);
  EXPECT_EQ(unpacked(std::string(response.content())), long_json);
}

TEST(CompressAnswer, TakesEmbeddedBytesToo) {
  auto response = answer_of("application/json; charset=utf-8", {});
  response.embedded = long_json;
  compress_answer(response, request_taking("gzip"));
  EXPECT_EQ(unpacked(std::string(response.content())), long_json);
}

TEST(CompressAnswer, LeavesItPlainForWhoDoesNotTakeIt) {
  for (const auto* accepts : {"", "br", "gzip;q=0", "identity, gzip;q=0.5", "*;q=0"}) {
    auto response = answer_of("application/json; charset=utf-8", long_json);
    compress_answer(response, request_taking(accepts));
    EXPECT_EQ(header(response, "Content-Encoding"), "(none)") << accepts;
    EXPECT_EQ(header(response, "Vary"), "Accept-Encoding") << accepts;
    EXPECT_EQ(response.content(), long_json) << accepts;
  }
}

TEST(CompressAnswer, LeavesAloneWhatIsShortOrCompressedAlready) {
  for (const auto& [type, body] : {std::pair(std::string("application/json"), std::string(2047, 'x')),
                                   std::pair(std::string("image/jpeg"), long_json),
                                   std::pair(std::string("application/pdf"), long_json)}) {
    auto response = answer_of(type, body);
    compress_answer(response, request_taking("gzip"));
    EXPECT_EQ(header(response, "Content-Encoding"), "(none)") << type;
    EXPECT_EQ(header(response, "Vary"), "(none)") << type;
    EXPECT_EQ(response.content(), body) << type;
  }
  auto coded = answer_of("application/json", long_json);
  coded.set("Content-Encoding", "br");
  compress_answer(coded, request_taking("gzip"));
  EXPECT_EQ(coded.content(), long_json);
}

}  // namespace
}  // namespace pumpwright::server

#include "job/json_reader.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "engine/quantity/bad_input.h"

namespace pumpwright::job {
namespace {

std::string refusal_of(std::string_view bytes, const JsonBounds& bounds = {}) {
  try {
    JsonReader::parse(bytes, bounds);
  } catch (const BadInput& e) {
    return e.what();
  }
  return "";
}

TEST(JsonReader, RefusesWhatIsNoDocumentAndSaysWhere) {
  EXPECT_NE(refusal_of("").find("a complete JSON document"), std::string::npos);
  EXPECT_NE(refusal_of("{\"a\": [1, 2").find("byte"), std::string::npos);
  EXPECT_NE(refusal_of("{\"a\": 1e999}").find("numbers that a double can hold"), std::string::npos);
  EXPECT_NE(refusal_of("{\"a\": \"\xff\xfe\"}").find("a complete JSON document"), std::string::npos);
  EXPECT_NE(refusal_of("{} {}").find("a complete JSON document"), std::string::npos);
}

TEST(JsonReader, RefusesAKeyTwiceInOneObjectButNotInTwo) {
  EXPECT_NE(refusal_of(R"({"a": 1, "b": 2, "a": 3})").find("the same key twice"), std::string::npos);
  EXPECT_NE(refusal_of(R"({"x": {"a": 1, "a": 1}})").find("the same key twice"), std::string::npos);
  EXPECT_EQ(refusal_of(R"({"x": {"a": 1}, "y": {"a": 1}})"), "");
}

TEST(JsonReader, ReadsEveryKindOfValueWhereItStands) {
  const std::string bytes =
      R"({"a": [1, -2, 2.5, [], {"b": null}, {}], "c": {"d": [true, false], "e": "\u00b5"}, "f": 3})";
  EXPECT_EQ(JsonReader::parse(bytes).raw(), nlohmann::json::parse(bytes));
  EXPECT_EQ(JsonReader::parse("7").raw(), nlohmann::json(7));
  EXPECT_TRUE(JsonReader::parse("18446744073709551615").raw().is_number_unsigned());
}

TEST(JsonReader, RefusesTooDeepAndTooLarge) {
  EXPECT_EQ(refusal_of("[[[]]]", {.depth_max = 2}), "");
  EXPECT_NE(refusal_of("[[[1]]]", {.depth_max = 2}).find("at most 2 levels"), std::string::npos);
  EXPECT_NE(refusal_of(R"([[{"a": 1}]])", {.depth_max = 2}).find("at most 2 levels"), std::string::npos);
  EXPECT_NE(refusal_of(std::string(100000, '[')).find("levels of nesting"), std::string::npos);
  EXPECT_NE(refusal_of("[1, 2, 3]", {.bytes_max = 4, .depth_max = 4}).find("at most 4 bytes"),
            std::string::npos);
}

TEST(JsonReader, NamesThePlaceByPointer) {
  const JsonReader root = JsonReader::parse(R"({"a/b": [{"c": "x"}]})");
  const JsonReader c = root.required("a/b").items()[0].required("c");
  EXPECT_EQ(c.pointer(), "/a~1b/0/c");
  try {
    c.number();
    FAIL();
  } catch (const BadInput& e) {
    EXPECT_STREQ(e.what(), "/a~1b/0/c: c: read \"x\"; valid: a number");
  }
}

TEST(JsonReader, RefusesUnknownKeysAndMissingOnes) {
  const JsonReader root = JsonReader::parse(R"({"a": 1, "z": 2})");
  EXPECT_THROW(root.allow_only({"a", "b"}), BadInput);
  EXPECT_NO_THROW(root.allow_only({"a", "z"}));
  EXPECT_THROW(root.required("b"), BadInput);
  EXPECT_FALSE(root.optional("b").has_value());
}

TEST(JsonReader, IntegersKeepToTheirRange) {
  const JsonReader root = JsonReader::parse(R"({"n": 3, "f": 3.5, "big": 18446744073709551615, "t": "3"})");
  EXPECT_EQ(root.required("n").integer(1, 4), 3);
  EXPECT_THROW(root.required("n").integer(4, 9), BadInput);
  EXPECT_THROW(root.required("f").integer(1, 4), BadInput);
  EXPECT_THROW(root.required("big").integer(0, INT64_MAX), BadInput);
  EXPECT_THROW(root.required("t").integer(1, 4), BadInput);
}

}  // namespace
}  // namespace pumpwright::job

// A user must be able to act on the one line an error prints.
#include "engine/quantity/bad_input.h"

#include <gtest/gtest.h>

#include "engine/quantity/quantity.h"

namespace pumpwright {
namespace {

TEST(BadInput, SaysFieldPlaceValueAndWhatWouldBeValid) {
  const BadInput error(
      {.field = "reading", .place = "/readings/3", .value = "7 thoo", .expected = "a length"});
  EXPECT_STREQ(error.what(), "/readings/3: reading: read \"7 thoo\"; valid: a length");
  EXPECT_STREQ(error.at("job.json").what(), "job.json/readings/3: reading: read \"7 thoo\"; valid: a length");
}

TEST(BadInput, StaysOneShortLineHoweverLongTheValue) {
  const BadInput error({.field = "unit", .place = "", .value = std::string(5000, '\n'), .expected = "mm"});
  const std::string line = error.what();
  EXPECT_EQ(line.find('\n'), std::string::npos);
  EXPECT_LT(line.size(), 200U);
}

TEST(BadInput, DoesNotCutACharacterInHalf) {
  std::string value(79, 'x');
  value += "µµ";
  EXPECT_EQ(BadInput({.field = "f", .place = "", .value = value, .expected = "e"}).what_was_wrong().value,
            std::string(79, 'x') + "…");
}

}  // namespace
}  // namespace pumpwright

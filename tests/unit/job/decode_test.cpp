#include "job/decode.h"

#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

TEST(Decode, PutsThePlaceInFrontOfTheMistake) {
  const JsonReader root = JsonReader::parse(R"({"limit": "80 degC", "size": "-1 mm", "good": "7 thou"})");
  const std::string wrong = testing::refusal([&] { decode_written(root.required("limit"), Kind::length); });
  EXPECT_EQ(wrong.substr(0, 14), "/limit: limit:");
  EXPECT_NE(wrong.find("80 degC"), std::string::npos);
  EXPECT_NE(testing::refusal([&] { decode_positive_length(root.required("size")); }).find("above zero"),
            std::string::npos);
  EXPECT_NEAR(decode_positive_length(root.required("good")).si, 7 * 25.4e-6, 1e-18);
}

}  // namespace
}  // namespace pumpwright::job

#include "job/make_up.h"

#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::refusal;

MakeUp decoded(const json& make_up) {
  return decode_make_up(JsonReader::parse(make_up.dump()));
}

TEST(MakeUp, FillsDimensionsFromTheFrameButNeverOverEnteredOnes) {
  json given = demo("greenhouse-circulator")["make_up"];
  given["dimensions"].erase("register_height");
  given["dimensions"]["register_diameter"] = "4.4990 in";
  const MakeUp made = complete_from_catalog(decoded(given), testing::catalog());
  EXPECT_NEAR(made.dimension("shaft_diameter")->nominal.value(), 0.875 * 0.0254, 1e-12);
  EXPECT_TRUE(made.dimension("shaft_diameter")->source.has_value());
  EXPECT_NEAR(made.dimension("register_diameter")->nominal.value(), 4.499 * 0.0254, 1e-12);
  EXPECT_FALSE(made.dimension("register_diameter")->source.has_value());
}

TEST(MakeUp, AMetricMotorTakesItsRegisterFromTheFlange) {
  const MakeUp made = complete_from_catalog(decoded(demo("orchard-wash")["make_up"]), testing::catalog());
  EXPECT_NEAR(made.dimension("shaft_diameter")->nominal.value(), 0.028, 1e-12);
  EXPECT_NEAR(made.dimension("register_diameter")->nominal.value(), 0.180, 1e-12);
}

TEST(MakeUp, AnUnknownFrameIsNamedWithItsTable) {
  json given = demo("greenhouse-circulator")["make_up"];
  given["driver"]["frame"] = "999XX";
  const std::string message = refusal([&] { complete_from_catalog(decoded(given), testing::catalog()); });
  EXPECT_NE(message.find("/make_up/driver/frame"), std::string::npos) << message;
  EXPECT_NE(message.find("frames-nema"), std::string::npos) << message;
}

TEST(MakeUp, TagsFollowWhatThePumpIsMadeOf) {
  const auto hot = tags_of(decoded(demo("greenhouse-circulator")["make_up"]));
  EXPECT_EQ(hot.count("hot"), 1U);
  EXPECT_EQ(hot.count("sleeve"), 1U);
  EXPECT_EQ(hot.count("nema"), 1U);
  const auto cold = tags_of(decoded(demo("aquarium-seawater")["make_up"]));
  EXPECT_EQ(cold.count("hot"), 0U);
  EXPECT_EQ(cold.count("no-sleeve"), 1U);
}

TEST(MakeUp, RefusesADimensionItDoesNotKnowAndARangeUpsideDown) {
  json given = demo("greenhouse-circulator")["make_up"];
  given["dimensions"]["shaft_colour"] = "1 in";
  EXPECT_NE(refusal([&] { decoded(given); }).find("shaft_colour"), std::string::npos);
  given = demo("greenhouse-circulator")["make_up"];
  given["dimensions"]["sleeve_length"] = {{"lower", "2 in"}, {"upper", "1 in"}};
  EXPECT_NE(refusal([&] { decoded(given); }).find("not smaller"), std::string::npos);
}

TEST(MakeUp, ThePublishedSchemaListsTheSameDimensions) {
  std::ifstream file(std::string(PUMPWRIGHT_SOURCE_DIR) + "/docs/job.schema.json");
  const json schema = json::parse(file);
  const json& listed = schema["properties"]["make_up"]["properties"]["dimensions"]["properties"];
  for (const auto& name : dimension_names())
    EXPECT_TRUE(listed.contains(name.name)) << name.name;
  EXPECT_EQ(listed.size(), dimension_names().size());
}

TEST(MakeUp, ARangeAloneStandsForItsMiddle) {
  json given = demo("greenhouse-circulator")["make_up"];
  given["dimensions"]["sleeve_length"] = {{"lower", "1.0 in"}, {"upper", "2.0 in"}};
  EXPECT_NEAR(decoded(given).dimension("sleeve_length")->nominal.value(), 1.5 * 0.0254, 1e-12);
}

}  // namespace
}  // namespace pumpwright::job

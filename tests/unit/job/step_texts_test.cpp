#include "job/step_texts.h"

#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

const std::string good = R"(
[[step]]
id = "one"
stage = "fit"
title = { en = "a", es = "b" }
do = { en = "a", es = "b" }
source = { document = "d", obtained = "read" }
[[step.check]]
id = "c"
kind = "value"
judged = "value"
place = "sleeve"
turning = "rotating"
title = { en = "a", es = "b" }
if_it_fails = { en = "a", es = "b" }
[[step.check.limit]]
rank = "family"
upper = { text = "7 thou" }
)";

std::string refusal_of(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  if (!from.empty() && at == std::string::npos) return "the test does not fit the text";
  text.replace(at, from.size(), to);
  const NamedBytes file{"steps/x.toml", text};
  return testing::refusal([&] { load_step_texts({&file, 1}); });
}

TEST(StepTexts, ReadAStepWithItsCheckAndLimit) {
  const NamedBytes file{"steps/x.toml", good};
  const auto steps = load_step_texts({&file, 1});
  ASSERT_EQ(steps.size(), 1U);
  EXPECT_EQ(steps[0].step.title.es, "b");
  ASSERT_EQ(steps[0].checks.size(), 1U);
  EXPECT_EQ(steps[0].checks[0].limits[0].upper->text, "7 thou");
}

TEST(StepTexts, RefuseMistakesWithFileAndLine) {
  EXPECT_NE(refusal_of(good, "es = \"b\"", "fr = \"b\"").find("steps/x.toml:5"), std::string::npos);
  EXPECT_NE(refusal_of(good, "stage = \"fit\"", "stage = \"lunch\"").find("steps/x.toml:4: stage"),
            std::string::npos);
  EXPECT_NE(refusal_of(good, "place = \"sleeve\"", "place = \"moon\"").find("place"), std::string::npos);
  EXPECT_NE(refusal_of(good, "kind = \"value\"", "kind = \"guess\"").find("kind"), std::string::npos);
  EXPECT_NE(refusal_of(good, "id = \"one\"", "idd = \"one\"").find("unknown key"), std::string::npos);
  EXPECT_NE(refusal_of(good, "source = { document = \"d\", obtained = \"read\" }", "").find("source"),
            std::string::npos);
  EXPECT_NE(refusal_of(good, "upper = { text = \"7 thou\" }", "").find("bound"), std::string::npos);
  EXPECT_NE(refusal_of(good, "{ text = \"7 thou\" }", "{ text = \"7 thou\", dimension = \"hub_length\" }")
                .find("exactly one"),
            std::string::npos);
  EXPECT_NE(refusal_of(good, "[[step]]", "[[step").find("TOML"), std::string::npos);
}

TEST(StepTexts, AConditionNeedsAllItsTagsAndNoneOfTheOthers) {
  const Condition c{{"sleeve", "hot"}, {"iec"}};
  EXPECT_TRUE(c.holds({"sleeve", "hot", "nema"}));
  EXPECT_FALSE(c.holds({"sleeve", "nema"}));
  EXPECT_FALSE(c.holds({"sleeve", "hot", "iec"}));
}

}  // namespace
}  // namespace pumpwright::job

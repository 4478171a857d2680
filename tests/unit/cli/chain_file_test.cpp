#include "cli/chain_file.h"

#include <gtest/gtest.h>

#include "engine/quantity/bad_input.h"

namespace pumpwright {
namespace {

ChainFile decode(const std::string& links, const std::string& more = "") {
  return decode_chain_file(R"({"format":"pumpwright-chain","version":1,"name":"n",)" + more + R"("links":[)" +
                           links + "]}");
}

std::string place_of_refusal(const std::string& links, const std::string& more = "") {
  try {
    decode(links, more);
  } catch (const BadInput& error) {
    return error.what_was_wrong().place;
  }
  ADD_FAILURE() << "not refused: " << links;
  return {};
}

TEST(ChainFile, ReadsTheThreeWaysToWriteATolerance) {
  const auto file = decode(R"({"name":"a","nominal":"10 mm","tolerance":"0.1 mm"},
                              {"name":"b","nominal":"10 mm","plus":"0.2 mm","minus":"0.1 mm"},
                              {"name":"c","nominal":"10 mm","lower":"+0.1 mm","upper":"+0.2 mm"})");
  const auto& links = file.chain.links;
  ASSERT_EQ(links.size(), 3U);
  EXPECT_DOUBLE_EQ(links[0].lower_deviation.value(), -0.1e-3);
  EXPECT_DOUBLE_EQ(links[0].upper_deviation.value(), 0.1e-3);
  EXPECT_DOUBLE_EQ(links[1].lower_deviation.value(), -0.1e-3);
  EXPECT_DOUBLE_EQ(links[1].upper_deviation.value(), 0.2e-3);
  EXPECT_DOUBLE_EQ(links[2].lower_deviation.value(), 0.1e-3);
  EXPECT_DOUBLE_EQ(links[2].upper_deviation.value(), 0.2e-3);
}

TEST(ChainFile, TakesAThreeSigmaNormalThatOpensTheGapUnlessStated) {
  const auto link = decode(R"({"name":"a","nominal":"1 in","tolerance":"1 thou"})").chain.links.front();
  EXPECT_EQ(link.coefficient, 1);
  EXPECT_EQ(link.spread, Spread::normal);
  EXPECT_EQ(link.sigmas, 3);
}

TEST(ChainFile, ReadsLimitsAndTheWantedPart) {
  const std::string link = R"({"name":"a","nominal":"1 in","tolerance":"1 thou"})";
  const auto file = decode(link, R"("limits":{"lower":"0.99 in","inside":0.95},)");
  EXPECT_DOUBLE_EQ(file.chain.lower_limit.value().value(), 0.99 * 0.0254);
  EXPECT_FALSE(file.chain.upper_limit);
  EXPECT_EQ(file.wanted_inside, 0.95);
}

TEST(ChainFile, NamesThePlaceOfAMistake) {
  EXPECT_EQ(place_of_refusal(R"({"name":"a","nominal":"1","tolerance":"1 thou"})"), "/links/0/nominal");
  EXPECT_EQ(place_of_refusal(R"({"name":"a","nominal":"1 in","tolerance":"-1 thou"})"), "/links/0/tolerance");
  EXPECT_EQ(place_of_refusal(R"({"name":"a","nominal":"1 in","tolerance":"1 thou","dof":3})"),
            "/links/0/dof");
  EXPECT_EQ(place_of_refusal(R"({"name":"a","nominal":"1 in","tolerance":"1 thou"})", R"("unit":"in",)"),
            "/unit");
}

}  // namespace
}  // namespace pumpwright

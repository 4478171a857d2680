// Things of a make-up that must go together, and those nobody knows about.
#include "job/pairing.h"

#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::judge_document;

json greenhouse() {
  return demo("greenhouse-circulator");
}

TEST(LubricantAndElastomer, PetroleumGreaseOnEpdmStopsAtTheLubricantAndNamesWhatToTake) {
  json document = greenhouse();
  document["make_up"]["seal"]["lubricant"] = "petroleum-grease";
  const auto judged = judge_document(document);
  const CheckFinding& finding = judged.of("lubricant-elastomer");
  EXPECT_EQ(finding.verdict, Verdict::fail);
  EXPECT_EQ(finding.reason, Reason::does_not_suit);
  ASSERT_EQ(finding.readings[0].remarks.size(), 3U);
  EXPECT_NE(finding.readings[0].remarks[1].en.find("EPDM swells"), std::string::npos);
  EXPECT_NE(finding.readings[0].remarks[2].en.find("water with a little soap"), std::string::npos);
  EXPECT_EQ(finding.readings[0].remarks[2].en.find("petroleum"), std::string::npos);
  EXPECT_EQ(judged.snapshot.plan.step_of("lubricant-elastomer")->id, "take-lubricant");
}

TEST(LubricantAndElastomer, PetroleumGreaseOnNbrIsRight) {
  json document = greenhouse();
  document["make_up"]["seal"]["lubricant"] = "petroleum-grease";
  document["make_up"]["seal"]["elastomer"] = "NBR";
  EXPECT_EQ(judge_document(document).of("lubricant-elastomer").verdict, Verdict::pass);
}

TEST(LubricantAndElastomer, SiliconeOnSiliconeRubberIsRememberedAndDecidesNothing) {
  json document = greenhouse();
  document["make_up"]["seal"]["lubricant"] = "silicone-oil";
  document["make_up"]["seal"]["elastomer"] = "VMQ";
  EXPECT_EQ(judge_document(document).of("lubricant-elastomer").reason, Reason::limit_unconfirmed);
  document["shop"]["adopted"].push_back(
      {{"limit", "elastomers/VMQ"}, {"by", "L.H."}, {"time", "2026-01-05T09:00:00Z"}});
  EXPECT_EQ(judge_document(document).of("lubricant-elastomer").verdict, Verdict::fail);
}

TEST(LubricantAndElastomer, AnElastomerNobodyListsIsUnknown) {
  json document = greenhouse();
  document["make_up"]["seal"]["elastomer"] = "XYZ";
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("lubricant-elastomer").reason, Reason::pair_unknown);
  EXPECT_EQ(judged.of("liquid-elastomer").reason, Reason::pair_unknown);
  EXPECT_EQ(judged.of("elastomer-temperature").reason, Reason::no_limit);
}

TEST(LiquidAndElastomer, AKnownPairPassesAndAnUnknownOneSaysSo) {
  json document = greenhouse();
  document["make_up"]["service"]["fluid"] = "water";
  EXPECT_EQ(judge_document(document).of("liquid-elastomer").verdict, Verdict::pass);
  document["make_up"]["service"]["fluid"] = "nutrient solution";
  EXPECT_EQ(judge_document(document).of("liquid-elastomer").reason, Reason::pair_unknown);
}

TEST(ElastomerTemperature, TheLimitInWaterCountsAndNotTheOneInAir) {
  json document = greenhouse();
  document["make_up"]["seal"]["elastomer"] = "FKM";  // 200 °C in air, 80 °C in water
  document["make_up"]["service"]["temperature"] = "95 degC";
  EXPECT_EQ(judge_document(document).of("elastomer-temperature").verdict, Verdict::fail);
  document["make_up"]["seal"]["elastomer"] = "EPDM peroxide";
  EXPECT_EQ(judge_document(document).of("elastomer-temperature").verdict, Verdict::pass);
}

TEST(FacePair, APairThatIsNotInTheTableIsUnknown) {
  json document = greenhouse();
  EXPECT_EQ(judge_document(document).of("face-pair").verdict, Verdict::pass);
  document["make_up"]["seal"]["ring"] = "A";
  EXPECT_EQ(judge_document(document).of("face-pair").reason, Reason::pair_unknown);
}

struct HandCase {
  const char* rotation;
  const char* hand;
  Goes goes;
};

class Hands : public ::testing::TestWithParam<HandCase> {};

TEST_P(Hands, ACoilAndAFastenerAreTightenedByOneDirectionOnly) {
  MakeUp make_up;
  make_up.driver.rotation =
      std::string(GetParam().rotation) == "clockwise" ? Rotation::clockwise : Rotation::counter_clockwise;
  const Hand hand = std::string(GetParam().hand) == "left" ? Hand::left : Hand::right;
  const Hand other = hand == Hand::left ? Hand::right : Hand::left;
  make_up.fastener = Fastener{};
  // Each by its own hand: the other part's is the opposite one.
  for (const Pair pair : {Pair::coil_rotation, Pair::fastener_rotation}) {
    make_up.seal.coil = pair == Pair::coil_rotation ? hand : other;
    make_up.fastener->hand = pair == Pair::fastener_rotation ? hand : other;
    const FoundPairing found = find_pairing(pair, make_up, testing::catalog());
    EXPECT_EQ(found.pairing.goes, GetParam().goes);
    EXPECT_EQ(found.pairing.instead.empty(), GetParam().goes == Goes::together);
    ASSERT_TRUE(found.rule.has_value());
    EXPECT_EQ(found.rule->source.obtained, Obtained::common_practice);
  }
}

// EN 12756 designates a seal for clockwise rotation seen from the seat, here the motor's side, as R: that is
// counter-clockwise seen from the impeller end.
INSTANTIATE_TEST_SUITE_P(BothWays, Hands,
                         ::testing::Values(HandCase{"counter-clockwise", "right", Goes::together},
                                           HandCase{"counter-clockwise", "left", Goes::apart},
                                           HandCase{"clockwise", "right", Goes::apart},
                                           HandCase{"clockwise", "left", Goes::together}));

TEST(CoilAndRotation, WithoutADirectionNobodyKnows) {
  json document = greenhouse();
  document["make_up"]["seal"]["kind"] = "conical-spring";
  document["make_up"]["seal"]["coil"] = "right";
  document["make_up"]["driver"].erase("rotation");
  json events = json::array();
  document["events"] = events;
  EXPECT_EQ(judge_document(document).of("coil-hand").reason, Reason::pair_unknown);
  document["make_up"]["driver"]["rotation"] = "clockwise";
  document["shop"]["adopted"].push_back(
      {{"limit", "coil-hand/derived"}, {"by", "L.H."}, {"time", "2026-01-05T09:00:00Z"}});
  EXPECT_EQ(judge_document(document).of("coil-hand").reason, Reason::does_not_suit);
}

TEST(Pairing, IsFrozenWithThePlanAndReadBackTheSame) {
  json document = greenhouse();
  document["make_up"]["seal"]["lubricant"] = "petroleum-grease";
  const auto judged = judge_document(document);
  const json frozen = json::parse(freeze(document.dump(), judged.snapshot));
  const auto again = judge_document(frozen);
  ASSERT_EQ(judged.judgement.findings.size(), again.judgement.findings.size());
  for (std::size_t i = 0; i < judged.judgement.findings.size(); ++i) {
    EXPECT_EQ(judged.judgement.findings[i].verdict, again.judgement.findings[i].verdict);
    EXPECT_EQ(judged.judgement.findings[i].reason, again.judgement.findings[i].reason);
  }
}

TEST(Pairing, TakesNoLimitOfTheJob) {
  json document = greenhouse();
  document["limits"] = json::array({{{"check", "liquid-elastomer"},
                                     {"rank", "job"},
                                     {"upper", "1"},
                                     {"source", {{"document", "a letter"}, {"obtained", "read"}}}}});
  EXPECT_THROW(judge_document(document), BadInput);
}

}  // namespace
}  // namespace pumpwright::job

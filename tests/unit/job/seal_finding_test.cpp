// Other conditions put in place of the job's, the verdict they give, and the suction pressure that would do.
#include "job/seal_finding.h"

#include <gtest/gtest.h>

#include "engine/quantity/format.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using testing::demo;
using testing::judge_document;

const testing::Judged& greenhouse() {
  static const testing::Judged judged = [] {
    nlohmann::json document = demo("greenhouse-circulator");
    document["make_up"]["service"] = {
        {"fluid", "water"}, {"temperature", "82 degC"}, {"suction_pressure", "12 psig"}};
    return judge_document(document);
  }();
  return judged;
}

SealFinding tried(const TriedConditions& conditions) {
  return find_of_seal(ask_of_seal(conditions, greenhouse().snapshot, "--"), greenhouse().state);
}

TEST(TriedConditions, TakeThePlaceOfTheJobsOwnAndNothingElse) {
  const auto asked =
      ask_of_seal({.temperature = "95 degC", .altitude = "1600 m"}, greenhouse().snapshot, "--");
  const Service& service = asked.snapshot.make_up.service;
  EXPECT_TRUE(asked.tried);
  EXPECT_DOUBLE_EQ(service.temperature->si, 368.15);
  EXPECT_DOUBLE_EQ(service.altitude->si, 1600);
  EXPECT_EQ(service.suction_pressure->text, "12 psig");
  EXPECT_FALSE(asked.length.has_value());
  EXPECT_FALSE(ask_of_seal({}, greenhouse().snapshot, "--").tried);
}

TEST(TriedConditions, ThatCanNotBeUsedAreRefusedByTheNameTheCallerGivesThem) {
  const auto field_of = [](const TriedConditions& conditions, const char* prefix) -> std::string {
    try {
      ask_of_seal(conditions, greenhouse().snapshot, prefix);
    } catch (const BadInput& e) {
      return e.what_was_wrong().field;
    }
    return "";
  };
  EXPECT_EQ(field_of({.temperature = "hot"}, "--"), "--temperature");
  EXPECT_EQ(field_of({.suction = "12 furlongs"}, ""), "suction");
  EXPECT_EQ(field_of({.head = "-1 psi"}, ""), "head");
  EXPECT_EQ(field_of({.speed = "0 rpm"}, ""), "speed");
  EXPECT_EQ(field_of({.altitude = "90 km"}, "--"), "--altitude");
  EXPECT_EQ(field_of({.length = "2 m"}, "--"), "--length");
}

TEST(SealFinding, TooLittleSuctionDoesNotSuitAndTheOneThatWouldDoes) {
  const auto asked =
      ask_of_seal({.temperature = "105 degC", .suction = "0.05 bar(g)"}, greenhouse().snapshot, "");
  const auto refused = find_of_seal(asked, greenhouse().state);
  EXPECT_EQ(refused.in_service, Verdict::fail);
  EXPECT_EQ(refused.verdict, Verdict::fail);
  const auto enough = refused.service.least_suction;
  ASSERT_TRUE(enough.has_value());
  // Three digits, in whatever unit, still do.
  for (const char* symbol : {"bar(g)", "psig"}) {
    const auto text =
        format_significant(AnyQuantity(*enough), unit_with_symbol(symbol, Kind::pressure_gauge), 3);
    EXPECT_EQ(tried({.temperature = "105 degC", .suction = text}).in_service, Verdict::pass) << text;
  }
  // And it is no more than is needed: a twentieth less of the absolute pressure does not.
  const double less_pa = 0.95 * (enough->value.value() + 101325) - 101325;
  EXPECT_NE(tried({.temperature = "105 degC", .suction = std::to_string(less_pa) + " Pa(g)"}).in_service,
            Verdict::pass);
}

TEST(SealFinding, ATriedLengthIsJudgedInPlaceOfTheMeasuredOne) {
  EXPECT_NE(tried({}).find("working-length"), nullptr);
  const auto squeezed = tried({.length = "0.80 in"});
  EXPECT_EQ(squeezed.find("working-length"), nullptr);
  EXPECT_EQ(squeezed.find("spring-force")->verdict, Verdict::fail);
  EXPECT_EQ(squeezed.as_set, Verdict::fail);
  EXPECT_EQ(tried({.length = "1.00 in"}).find("spring-force")->verdict, Verdict::pass);
}

TEST(SealFinding, FacesWithoutAFilmAreNotCalledFit) {
  // 30 % propylene glycol: the data end at 100 °C, and the faces run hotter than that.
  const auto judged = judge_document(demo("greenhouse-circulator"));
  const auto asked = ask_of_seal({.temperature = "96 degC", .suction = "2 psig"}, judged.snapshot, "");
  const auto found = find_of_seal(asked, judged.state);
  ASSERT_TRUE(found.service.film.has_value());
  EXPECT_FALSE(found.service.film->converged);
  EXPECT_EQ(found.find("vapour-margin")->reason, Reason::not_computable);
  EXPECT_EQ(found.in_service, Verdict::unproven);
  EXPECT_EQ(found.as_set, Verdict::pass);
  EXPECT_FALSE(found.service.least_suction.has_value());
}

TEST(SealFinding, WhatTheMakeUpLeavesOutIsNotProvenByThat) {
  for (const char* left_out : {"temperature", "suction_pressure"}) {
    nlohmann::json document = demo("greenhouse-circulator");
    document["make_up"]["service"].erase(left_out);
    document["events"] = nlohmann::json::array();
    const auto judged = judge_document(document);
    EXPECT_EQ(find_of_seal(ask_of_seal({}, judged.snapshot, ""), judged.state).in_service, Verdict::unproven)
        << left_out;
  }
  nlohmann::json document = demo("greenhouse-circulator");
  document["make_up"]["seal"].erase("ring");
  const auto judged = judge_document(document);
  EXPECT_EQ(find_of_seal(ask_of_seal({}, judged.snapshot, ""), judged.state).in_service, Verdict::unproven);
}

TEST(SealFinding, NamesNoSuctionBelowTodaysWhileTodaysIsNotProven) {
  nlohmann::json document = demo("greenhouse-circulator");
  document["make_up"]["service"]["concentration"] = "60 %";
  const auto judged = judge_document(document);
  const auto found = find_of_seal(ask_of_seal({.suction = "25 psig"}, judged.snapshot, ""), judged.state);
  EXPECT_TRUE(found.in_service == Verdict::pass || !found.service.least_suction.has_value());
}

TEST(SealFinding, WhatIsNotSetYetLeavesTheServicesVerdictAlone) {
  nlohmann::json document = demo("greenhouse-circulator");
  document["events"] = nlohmann::json::array();
  const auto judged = judge_document(document);
  const auto found = find_of_seal(ask_of_seal({}, judged.snapshot, ""), judged.state);
  EXPECT_EQ(found.in_service, Verdict::pass);
  EXPECT_EQ(found.as_set, Verdict::unproven);
  EXPECT_EQ(found.verdict, Verdict::unproven);
}

}  // namespace
}  // namespace pumpwright::job

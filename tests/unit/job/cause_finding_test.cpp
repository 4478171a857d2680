// Evidence of a strip-down and of a job's own checks, weighed together.
#include "job/cause_finding.h"

#include <set>

#include <gtest/gtest.h>

#include "catalog/embedded.h"
#include "job/cause_wording.h"
#include "tests/support/refused.h"
#include "tests/unit/job/sheet_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using reliability::Seen;
using testing::judge_document;
using testing::refusal;

const CauseTables& tables() {
  static const CauseTables shipped = CauseTables::from(testing::catalog());
  return shipped;
}

StripDownSheet decoded(json file) {
  file["format"] = "pumpwright-strip-down";
  file["version"] = 1;
  file["name"] = "test";
  return decode_strip_down(JsonReader::parse(file.dump()));
}

std::string first_of(const CauseFinding& finding) {
  return tables().causes()[finding.diagnosis.ranked.front().cause].id;
}

Seen seen(const CauseFinding& finding, const char* word) {
  return finding.evidence[*tables().finding(word)];
}

TEST(CauseTables, EveryFindingIsLeftByACauseAndEveryTitleSaidInBothLanguages) {
  std::set<std::size_t> linked;
  for (const auto& link : tables().inference().network().links) {
    linked.insert(link.finding);
    EXPECT_NE(tables().source_of(link.cause, link.finding), nullptr);
  }
  EXPECT_EQ(linked.size(), tables().findings().size());
  for (const auto& cause : tables().causes()) {
    EXPECT_FALSE(cause.title.es.empty() || cause.change.en.empty() || cause.change.es.empty() ||
                 cause.owner.es.empty())
        << cause.id;
  }
  for (const auto& finding : tables().findings()) {
    EXPECT_FALSE(finding.title.es.empty() || finding.look.es.empty()) << finding.id;
    EXPECT_NE(part_text(finding.part).en, part_text(finding.part).es) << finding.part;
  }
}

TEST(CauseTables, ALinkToWhatIsNotThereIsRefusedWithItsRow) {
  std::vector<NamedBytes> files(embedded_catalog().begin(), embedded_catalog().end());
  std::string links;
  for (auto& file : files) {
    if (file.name != "cause_links.toml") continue;
    links = std::string(file.bytes);
    links.replace(links.find("cause = \"dry-running\""), 21, "cause = \"dry-ruining\"");
    file.bytes = links;
  }
  const std::string said = refusal([&] { (void)CauseTables::from(Catalog::load(files)); });
  EXPECT_NE(said.find("dry-ruining"), std::string::npos) << said;
  EXPECT_NE(said.find("cause_links.toml"), std::string::npos) << said;
}

TEST(StripDown, NamesTheCauseAndWhatToChange) {
  const auto finding = cause_of(tables(), decoded({{"found", {"heat-checks", "lost-prime", "face-tinted"}},
                                                   {"not_found", {"margin-small"}}}));
  ASSERT_TRUE(finding.tells());
  EXPECT_EQ(first_of(finding), "dry-running");
  EXPECT_EQ(headline_text(tables(), finding).en.rfind("Most likely: faces ran dry (over 95 %)", 0), 0U);
  EXPECT_EQ(headline_text(tables(), finding).es.rfind("Lo más probable: caras en seco", 0), 0U);
}

TEST(StripDown, ThinEvidenceSaysThatItDoesNotTellAndWhatToLookFor) {
  const auto finding = cause_of(tables(), decoded({{"found", {"heat-checks"}}}));
  EXPECT_FALSE(finding.tells());
  const Text said = headline_text(tables(), finding);
  EXPECT_NE(said.en.find("Can not tell yet. It may be faces ran dry"), std::string::npos) << said.en;
  EXPECT_NE(said.es.find("Aún no se puede decir"), std::string::npos);
  const auto& best = tables().findings()[finding.diagnosis.next.front().finding].id;
  EXPECT_TRUE(best == "lost-prime" || best == "margin-small" || best == "valve-closed") << best;
  EXPECT_NE(
      headline_text(tables(), cause_of(tables(), decoded(json::object()))).en.find("nothing that points"),
      std::string::npos);
}

// Widths of 3.4 and 3.1 mm, each read to 0.05 mm: 0.3 ± 2 sqrt(2/12) 0.05 = 0.3 ± 0.041 mm.
TEST(StripDown, TheWidthsOfTrackAndFaceSayWhetherItRanTrue) {
  const auto wide =
      cause_of(tables(), decoded({{"measured", {{"track_width", "3.4 mm"}, {"narrow_face", "3.1 mm"}}}}));
  EXPECT_NEAR(wide.track->excess.value(), 0.3e-3, 1e-12);
  EXPECT_NEAR(wide.track->expanded.value(), 0.0408e-3, 1e-7);
  EXPECT_EQ(seen(wide, "track-wide"), Seen::present);
  EXPECT_EQ(seen(wide, "track-narrow"), Seen::absent);
  EXPECT_NE(track_text(wide).en.find("moved 0.30 mm ± 0.041 mm"), std::string::npos) << track_text(wide).en;
  const auto true_one =
      cause_of(tables(), decoded({{"measured", {{"track_width", "3.12 mm"}, {"narrow_face", "3.1 mm"}}}}));
  EXPECT_EQ(seen(true_one, "track-wide"), Seen::absent);
  const auto narrow =
      cause_of(tables(), decoded({{"measured", {{"track_width", "2.8 mm"}, {"narrow_face", "3.1 mm"}}}}));
  EXPECT_EQ(seen(narrow, "track-narrow"), Seen::present);
}

TEST(StripDown, TheHardnessOfTheElastomerSaysWhetherItHardenedOrSoftened) {
  const auto with = [](const char* found, const char* fresh) {
    return cause_of(tables(), decoded({{"measured", {{"hardness", found}, {"hardness_new", fresh}}}}));
  };
  const auto hard = with("84", "70");
  EXPECT_EQ(seen(hard, "elastomer-hard"), Seen::present);
  EXPECT_EQ(seen(hard, "elastomer-swollen"), Seen::absent);
  const auto soft = with("52", "70");
  EXPECT_EQ(seen(soft, "elastomer-hard"), Seen::absent);
  EXPECT_EQ(seen(soft, "elastomer-swollen"), Seen::present);
  const auto alike = with("72", "70");
  EXPECT_EQ(seen(alike, "elastomer-hard"), Seen::absent);
  EXPECT_EQ(seen(alike, "elastomer-swollen"), Seen::absent);
  const auto between = with("77", "70");
  EXPECT_EQ(seen(between, "elastomer-hard"), Seen::not_looked);
  EXPECT_EQ(seen(between, "elastomer-swollen"), Seen::absent);
  // A hand that looked goes before the figure.
  const auto by_hand =
      cause_of(tables(), decoded({{"not_found", {"elastomer-hard"}},
                                  {"measured", {{"hardness", "84"}, {"hardness_new", "70"}}}}));
  EXPECT_EQ(seen(by_hand, "elastomer-hard"), Seen::absent);
}

TEST(StripDown, WhatCanNotBeIsRefusedWithItsPlace) {
  const auto said = [](const json& file) { return refusal([&] { (void)decoded(file); }); };
  EXPECT_NE(said({{"found", {"heat-checks", "heat-checks"}}}).find("/found/1"), std::string::npos);
  EXPECT_NE(said({{"found", {"heat-checks"}}, {"not_found", {"heat-checks"}}}).find("/not_found/0"),
            std::string::npos);
  EXPECT_NE(said({{"found", {"Heat checks"}}}).find("the word of a finding"), std::string::npos);
  EXPECT_NE(said({{"measured", {{"track_width", "3 mm"}}}}).find("track_width and narrow_face together"),
            std::string::npos);
  EXPECT_NE(said({{"measured", {{"read_to", "3 mm"}}}}).find("read_to only beside"), std::string::npos);
  EXPECT_NE(said({{"measured", {{"hardness", "84"}}}}).find("hardness and hardness_new together"),
            std::string::npos);
  EXPECT_NE(said({{"measured", {{"hardness", "184"}, {"hardness_new", "70"}}}}).find("from 0 to 100"),
            std::string::npos);
}

json stripped_job(const json& read) {
  json document = testing::demo("greenhouse-circulator");
  document["make_up"]["sheets"]["strip-down"] = {{"complaint", "leaks again after seven months"}};
  document["events"].push_back({{"event", "reading"},
                                {"id", "strip1"},
                                {"check", "strip-down"},
                                {"time", "2026-11-18T07:55:00Z"},
                                {"actor", "L.H."},
                                {"sheet", read}});
  return document;
}

TEST(StripDownInAJob, IsWrittenDownWithoutAnInstrumentAndKeptAsItWasSaid) {
  const auto judged = judge_document(stripped_job(
      {{"found", {{{"finding", "heat-checks"}, {"said", "fine cracks"}, {"where", "2 o'clock"}}}},
       {"not_found", {"track-wide"}}}));
  const CheckFinding& check = judged.of("strip-down");
  EXPECT_EQ(check.verdict, Verdict::pass);
  EXPECT_EQ(check.readings.at(0).as_written, "1 ✓, 1 ✗");
  const auto lines = lines_of(*check.readings.at(0).sheet);
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[1].name.en, "fine cracks");
  EXPECT_EQ(lines[1].value.es, "hallado, 2 o'clock");
  EXPECT_EQ(lines[2].name.en, "track wide");
  const auto empty = judge_document(stripped_job(json::object()));
  EXPECT_EQ(empty.of("strip-down").reason, Reason::input_missing);
}

TEST(StripDownInAJob, ItsOwnNumbersAreEvidenceAndAHandGoesBeforeThem) {
  const auto judged =
      judge_document(stripped_job({{"found", {"heat-checks"}}, {"not_found", {"shaft-runs-out"}}}));
  const auto finding = cause_of(tables(), judged.snapshot, judged.state, judged.judgement);
  ASSERT_TRUE(finding);
  const auto by = [&](const char* word) { return finding->said_by[*tables().finding(word)]; };
  EXPECT_EQ(judged.of("vapour-margin").verdict, Verdict::pass);
  EXPECT_EQ(by("margin-small"), SaidBy::check);
  EXPECT_EQ(seen(*finding, "margin-small"), Seen::absent);
  EXPECT_EQ(by("shaft-runs-out"), SaidBy::hand);
  EXPECT_EQ(by("heat-checks"), SaidBy::hand);
  EXPECT_EQ(by("leaks-always"), SaidBy::nobody);
}

TEST(StripDownInAJob, WithoutOneThereIsNoCauseToTell) {
  const auto judged = judge_document(testing::demo("greenhouse-circulator"));
  EXPECT_FALSE(cause_of(tables(), judged.snapshot, judged.state, judged.judgement));
}

}  // namespace
}  // namespace pumpwright::job

// Strip-downs as open guides describe them, beside the cause each guide names (strip_downs.json, a source
// with every case): the right one first in at least 80 of 100 and among the first three in at least 95, and
// no less in the cases that were kept out while the catalog's estimates were set.
#include <algorithm>
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "catalog/embedded.h"
#include "job/cause_finding.h"
#include "tests/support/outside_check.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;

const CauseTables& tables() {
  static const CauseTables shipped = CauseTables::from(Catalog::load(embedded_catalog()));
  return shipped;
}

json cases() {
  std::ifstream file(std::string(PUMPWRIGHT_SOURCE_DIR) + "/tests/reference/job/strip_downs.json");
  return json::parse(file).at("cases");
}

std::vector<FoundThing> things(const json& words) {
  std::vector<FoundThing> out;
  for (const auto& word : words)
    out.push_back({word.get<std::string>(), "", "", "", ""});
  return out;
}

CauseFinding found(const json& written) {
  StripDownSheet sheet;
  sheet.found = things(written.at("found"));
  sheet.not_found = things(written.at("not_found"));
  CauseFinding out = cause_of(tables(), sheet);
  EXPECT_TRUE(out.unknown.empty()) << written.at("name");
  return out;
}

// 1 when the cause that the guide names comes first.
int rank_of(const json& written) {
  const auto ranked = found(written).diagnosis.ranked;
  const auto at = std::find_if(ranked.begin(), ranked.end(), [&](const auto& cause) {
    return tables().causes()[cause.cause].id == written.at("expected").get<std::string>();
  });
  EXPECT_NE(at, ranked.end()) << written.at("expected");
  return static_cast<int>(at - ranked.begin()) + 1;
}

struct Score {
  int cases = 0, first = 0, in_three = 0;
};

Score score(bool held_out) {
  Score out;
  for (const auto& written : cases()) {
    if (written.value("held_out", false) != held_out) continue;
    const int rank = rank_of(written);
    ++out.cases;
    out.first += rank == 1 ? 1 : 0;
    out.in_three += rank <= 3 ? 1 : 0;
    testing::expect_outside(
        {"Cause: place of the one the guide names, " + written.at("name").get<std::string>(),
         written.at("source").get<std::string>(), testing::Obtained::read, "1", static_cast<double>(rank), "",
         1});
  }
  return out;
}

void expect_good(const Score& score, int cases) {
  EXPECT_EQ(score.cases, cases);
  EXPECT_GE(100 * score.first, 80 * score.cases);
  EXPECT_GE(100 * score.in_three, 95 * score.cases);
}

TEST(StripDownCases, NameTheCauseThatTheGuideNames) {
  expect_good(score(false), 20);
}

TEST(StripDownCases, NameItInThoseKeptOutTooWhenTheEstimatesWereSet) {
  expect_good(score(true), 5);
}

// A case whose evidence is taken away must not be named any more: nothing is claimed beyond it.
TEST(StripDownCases, WithoutItsFindingsNothingIsNamed) {
  for (auto written : cases()) {
    written["found"] = json::array();
    EXPECT_FALSE(found(written).tells()) << written.at("name");
  }
}

// What fits many causes names none.
TEST(StripDownCases, AnEverydayFindingAloneDoesNotTell) {
  for (const char* word : {"leaks-always", "leaks-turning", "track-wide", "track-even", "face-worn-away",
                           "sleeve-fretted", "heat-checks", "turns-hard", "bearing-spalled"})
    EXPECT_FALSE(found({{"name", word}, {"found", {word}}, {"not_found", json::array()}}).tells()) << word;
}

}  // namespace
}  // namespace pumpwright::job

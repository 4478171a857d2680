// Bench tests whose sheet stands partly in the make-up and partly in a reading.
#include "job/bench_sheet.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "catalog/embedded.h"
#include "job/check_words.h"
#include "job/sheet_form.h"
#include "job/sheets/sheet_result.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::judge_document;

json greenhouse() {
  return demo("greenhouse-circulator");
}

json& sheet_read(json& document) {
  return testing::reading_of(document, "pressure-hold")["sheet"];
}

const JudgedReading& hold_of(const testing::Judged& judged) {
  return judged.of("pressure-hold").readings.at(0);
}

TEST(PressureHoldInAJob, HeldAndTightPassesAndShowsWhatItCameTo) {
  const auto judged = judge_document(greenhouse());
  EXPECT_EQ(judged.of("pressure-hold").verdict, Verdict::pass);
  EXPECT_EQ(judged.of("pressure-hold").reason, Reason::test_kept);
  EXPECT_EQ(judged.of("pressure-hold-leak").verdict, Verdict::pass);
  EXPECT_EQ(hold_of(judged).as_written, "200 psig → 196 psig, 15 min");
  ASSERT_NE(hold_of(judged).sheet, nullptr);
  const auto lines = lines_of(*hold_of(judged).sheet);
  EXPECT_EQ(lines.at(0).value.en, "200 psig");
  EXPECT_EQ(lines.at(5).name.es, "fuga");
}

TEST(PressureHoldInAJob, ALeakThatWasSeenFails) {
  json document = greenhouse();
  sheet_read(document)["readings"]["leak_seen"] = true;
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("pressure-hold").verdict, Verdict::fail);
  EXPECT_EQ(judged.of("pressure-hold").reason, Reason::test_failed);
}

TEST(PressureHoldInAJob, AFallThatTemperatureDoesNotExplainFailsTheLeakOnly) {
  json document = greenhouse();
  sheet_read(document)["readings"]["end"]["pressure"] = "60 psig";
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("pressure-hold").verdict, Verdict::pass);
  EXPECT_EQ(judged.of("pressure-hold-leak").verdict, Verdict::fail);
  EXPECT_EQ(judged.of("pressure-hold-leak").reason, Reason::outside);
}

TEST(PressureHoldInAJob, ATestThatWasNotVentedProvesNothing) {
  json document = greenhouse();
  sheet_read(document)["vented"] = false;
  const auto judged = judge_document(document);
  for (const auto* check : {"pressure-hold", "pressure-hold-leak"}) {
    EXPECT_EQ(judged.of(check).verdict, Verdict::unproven);
    EXPECT_EQ(judged.of(check).reason, Reason::test_proves_nothing);
  }
  EXPECT_NE(hold_of(judged).remarks.at(0).es.find("purgó"), std::string::npos);
}

TEST(PressureHoldInAJob, ARememberedTimeDecidesOnceTheShopConfirmsIt) {
  json document = greenhouse();
  document["make_up"]["sheets"]["pressure-hold"]["rule"] = {
      {"name", "rated-and-shutoff"}, {"rated", "100 psig"}, {"shutoff", "120 psig"}};
  EXPECT_EQ(judge_document(document).of("pressure-hold").reason, Reason::limit_unconfirmed);
  document["shop"]["adopted"].push_back(
      {{"limit", "pressure-hold/rated-and-shutoff"}, {"by", "L.H."}, {"time", "2026-01-05T09:00:00Z"}});
  EXPECT_EQ(judge_document(document).of("pressure-hold").verdict, Verdict::pass);
}

TEST(PressureHoldInAJob, AGaugeOutOfDateProvesNothing) {
  json document = greenhouse();
  for (auto& instrument : document["shop"]["instruments"])
    if (instrument["id"] == "gauge-1") instrument["due"] = "2026-11-01";
  const auto judged = judge_document(document);
  EXPECT_EQ(judged.of("pressure-hold").reason, Reason::instrument_out_of_date);
  EXPECT_EQ(judged.of("pressure-hold-leak").reason, Reason::instrument_out_of_date);
}

TEST(PressureHoldInAJob, WithoutASheetIsNoPartOfThePlan) {
  json document = greenhouse();
  document["make_up"].erase("sheets");
  auto& events = document["events"];
  for (auto it = events.begin(); it != events.end();)
    it = it->value("check", "") == "pressure-hold" || it->value("step", "") == "pressure-hold"
             ? events.erase(it)
             : std::next(it);
  EXPECT_EQ(judge_document(document).snapshot.plan.step("pressure-hold"), nullptr);
}

// What `change` makes of the greenhouse job is refused at a place that ends in `place`.
template <class Change>
void expect_refused(const Change& change, const std::string& place) {
  json document = greenhouse();
  change(document);
  try {
    judge_document(document);
    FAIL() << "not refused: " << place;
  } catch (const BadInput& e) {
    EXPECT_TRUE(e.what_was_wrong().place.ends_with(place)) << e.what();
  }
}

TEST(BenchSheet, RefusesWhatDoesNotBelongOrCanNotBeComputed) {
  const auto planned = [](json& d) -> json& { return d["make_up"]["sheets"]["pressure-hold"]; };
  expect_refused([&](json& d) { planned(d)["rule"].erase("mawp"); }, "/make_up/sheets/pressure-hold/rule");
  expect_refused([&](json& d) { planned(d)["vented"] = true; }, "/make_up/sheets/pressure-hold/vented");
  expect_refused([&](json& d) { d["make_up"]["sheets"]["endurance"] = json::object(); },
                 "/make_up/sheets/endurance");
  expect_refused([&](json& d) { planned(d) = "by hand"; }, "/make_up/sheets/pressure-hold");
  expect_refused([&](json& d) { sheet_read(d)["gauge"] = json::object(); }, "sheet/gauge");
  expect_refused([&](json& d) { sheet_read(d)["readings"]["held"] = "0 min"; }, "sheet/readings/held");
  expect_refused([&](json& d) { sheet_read(d).erase("isolated"); }, "sheet");
}

TEST(SheetForms, AskForEveryKeyTheDecoderNeeds) {
  const auto forms = load_sheet_forms(files_under(embedded_catalog(), "sheets/"));
  ASSERT_EQ(forms.size(), sheet_words.size());
  for (const auto& form : forms) {
    const SheetParts& parts = parts_of(form.sheet);
    for (const auto& field : form.fields) {
      const auto& keys = field.part == FieldPart::make_up ? parts.planned : parts.read;
      const auto holds = [&](std::string_view key) {
        return (field.at + "/").starts_with(fmt::format("/{}/", key));
      };
      EXPECT_TRUE(std::any_of(keys.begin(), keys.end(), holds)) << field.at;
    }
  }
}

}  // namespace
}  // namespace pumpwright::job

#include "job/job_log.h"

#include <gtest/gtest.h>

#include "job/snapshot_json.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;

LoggedEvent event(std::uint64_t seq, const std::string& type, const json& payload,
                  const std::string& actor = "J.M.") {
  return {seq, type, actor, "2026-11-18T08:00:00.000Z", payload.dump()};
}

// A demonstration job as a stream: opened, make-up, plan, then its events.
std::vector<LoggedEvent> stream_of(const json& document) {
  const JobFile file = decode_job_file(document.dump());
  const Snapshot snapshot = derive_snapshot(file, testing::catalog(), testing::step_files(), "test");
  std::vector<LoggedEvent> out{event(1, "opened", document["job"]),
                               event(2, "make-up-set", {{"make_up", document["make_up"]}}),
                               event(3, "plan-made", {{"snapshot", encode_snapshot(snapshot)}})};
  for (const auto& e : document["events"])
    out.push_back(event(out.size() + 1, e["event"], e, e["actor"]));
  return out;
}

JobLog log_of(const std::vector<LoggedEvent>& events) {
  JobLog log;
  for (const auto& e : events)
    log.apply(e);
  return log;
}

std::vector<std::pair<std::string, Verdict>> verdicts(const Judgement& judgement) {
  std::vector<std::pair<std::string, Verdict>> out;
  for (const auto& finding : judgement.findings)
    out.emplace_back(finding.check, finding.verdict);
  return out;
}

TEST(JobLog, ALoggedJobIsJudgedAsItsJobFileIs) {
  for (const auto* name : {"greenhouse-circulator", "orchard-wash", "aquarium-seawater"}) {
    const json document = testing::demo(name);
    const JobLog log = log_of(stream_of(document));
    const auto from_log = judge(log.snapshot(), log.state());
    EXPECT_EQ(verdicts(from_log), verdicts(testing::judge_document(document).judgement)) << name;
    EXPECT_GT(from_log.findings.size(), 20U);
  }
}

TEST(JobLog, NothingComesBeforeOpening) {
  JobLog log;
  EXPECT_NE(testing::refusal([&] {
              log.apply(event(1, "placed", {{"bench", "3"}}));
            }).find("opened"),
            std::string::npos);
}

TEST(JobLog, AReadingIsHandedInByThePersonItNames) {
  auto events = stream_of(testing::demo("aquarium-seawater"));
  LoggedEvent last = events.back();
  events.pop_back();
  JobLog log = log_of(events);
  last.actor = "O.F.";
  EXPECT_NE(testing::refusal([&] { log.apply(last); }).find("O.F."), std::string::npos);
  last.actor = json::parse(last.payload)["actor"];
  EXPECT_NO_THROW(log.apply(last));
}

TEST(JobLog, AReleasedJobTakesNoReadingUntilItIsReopened) {
  JobLog log = log_of(stream_of(testing::demo("greenhouse-circulator")));
  const json step{
      {"event", "step-done"}, {"step", "identify"}, {"time", "2026-11-18T08:06:00Z"}, {"actor", "J.M."}};
  log.apply(event(900, "signed",
                  {{"as", "release"}, {"statement", "built as recorded"}, {"head", std::string(64, 'a')}},
                  "L.H."));
  EXPECT_TRUE(log.job().released);
  EXPECT_THROW(log.apply(event(901, "step-done", step)), BadInput);
  log.apply(event(901, "reopened", {{"reason", "seat chipped in transport"}}, "L.H."));
  EXPECT_NO_THROW(log.apply(event(902, "step-done", step)));
}

TEST(JobLog, AnInstrumentCalibratedAgainKeepsOldReadingsInDateAndProvesNewOnes) {
  json document = testing::demo("greenhouse-circulator");
  for (auto& instrument : document["shop"]["instruments"])
    if (instrument["id"] == "dial-1") instrument["due"] = "2026-11-17";
  JobLog log = log_of(stream_of(document));
  const auto reason_now = [&] { return judge(log.snapshot(), log.state()).find("end-float")->reason; };
  EXPECT_EQ(reason_now(), Reason::instrument_out_of_date);
  json again;
  for (const auto& instrument : document["shop"]["instruments"])
    if (instrument["id"] == "dial-1") again = instrument;
  again["calibrated"] = "2026-11-18";
  again["due"] = "2027-11-17";
  log.apply(event(900, "instrument-joined", {{"instrument", again}}, "L.H."));
  EXPECT_EQ(reason_now(), Reason::inside);
}

TEST(JobLog, CopiesShareTheirPlanUntilOneOfThemChanges) {
  const json document = testing::demo("greenhouse-circulator");
  const JobLog before = log_of(stream_of(document));
  JobLog after = before;
  EXPECT_EQ(&after.snapshot(), &before.snapshot());
  json instrument = document["shop"]["instruments"][0];
  instrument["id"] = "joined-later";
  after.apply(event(900, "instrument-joined", {{"instrument", instrument}}, "L.H."));
  EXPECT_EQ(after.snapshot().instruments.count("joined-later"), 1U);
  EXPECT_EQ(before.snapshot().instruments.count("joined-later"), 0U);
}

TEST(JobLog, WhatIsAppliedWithoutATimeGetsTheOneOfItsAcceptance) {
  JobLog log = log_of(stream_of(testing::demo("greenhouse-circulator")));
  log.apply(event(900, "note", {{"text", "before"}}));
  const auto apply_undated = [&](const std::string& type, const json& payload) {
    LoggedEvent undated = event(901, type, payload);
    undated.at.clear();
    log.apply(undated);
  };
  apply_undated("note", {{"text", "first"}});
  apply_undated("note", {{"text", "second"}});
  apply_undated("attachment-added", {{"hash", std::string(64, 'a')}, {"media_type", "image/png"}});
  apply_undated("signed", {{"as", "release"}, {"statement", "built"}, {"head", std::string(64, 'b')}});
  log.accepted("2026-11-18T09:00:00.123Z");
  const auto& notes = log.job().notes;
  ASSERT_GE(notes.size(), 3U);
  EXPECT_EQ(notes[notes.size() - 3].at, "2026-11-18T08:00:00.000Z");
  EXPECT_EQ(notes[notes.size() - 2].at, "2026-11-18T09:00:00.123Z");
  EXPECT_EQ(notes.back().at, "2026-11-18T09:00:00.123Z");
  EXPECT_EQ(log.job().attachments.back().at, "2026-11-18T09:00:00.123Z");
  EXPECT_EQ(log.job().signatures.back().at, "2026-11-18T09:00:00.123Z");
}

TEST(JobLog, APlanMadeAnewSetsAsideWhatNoLongerFitsAndKeepsTheRest) {
  json document = testing::demo("greenhouse-circulator");
  const auto events = stream_of(document);
  JobLog log = log_of(events);
  const std::size_t before = log.job().file.events.size();
  json bare = document["make_up"];
  bare["sleeve"] = "none";
  for (const auto* gone : {"sleeve_bore", "sleeve_outside_diameter", "sleeve_length"})
    bare["dimensions"].erase(gone);
  document["make_up"] = bare;
  document["events"] = json::array();
  const auto anew = stream_of(document);
  log.apply(event(900, "make-up-set", {{"make_up", bare}}));
  log.apply({901, "plan-made", "J.M.", "2026-11-18T12:00:00.000Z", anew[2].payload});
  EXPECT_FALSE(log.job().set_aside.empty());
  EXPECT_EQ(log.job().file.events.size() + log.job().set_aside.size(), before);
  EXPECT_EQ(judge(log.snapshot(), log.state()).find("shaft-runout")->verdict, Verdict::pass);
}

}  // namespace
}  // namespace pumpwright::job

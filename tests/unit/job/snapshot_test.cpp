#include <gtest/gtest.h>

#include "job/snapshot_json.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;

TEST(Snapshot, ReadsBackExactly) {
  for (const char* name : {"greenhouse-circulator", "aquarium-seawater", "orchard-wash"}) {
    const JobFile job = decode_job_file(demo(name).dump());
    const Snapshot made = derive_snapshot(job, testing::catalog(), testing::step_files(), "test 1");
    const std::string text = encode_snapshot(made).dump();
    EXPECT_EQ(encode_snapshot(decode_snapshot(JsonReader::parse(text))).dump(), text);
  }
}

TEST(Snapshot, AFrozenPlanJudgesLikeTheOneItWasMadeFrom) {
  const std::string bytes = demo("orchard-wash").dump();
  const JobFile job = decode_job_file(bytes);
  const std::string frozen =
      freeze(bytes, derive_snapshot(job, testing::catalog(), testing::step_files(), "test 1"));
  const auto a = testing::judge_document(demo("orchard-wash"));
  const auto b = testing::judge_document(json::parse(frozen));
  ASSERT_EQ(a.judgement.findings.size(), b.judgement.findings.size());
  for (std::size_t i = 0; i < a.judgement.findings.size(); ++i) {
    EXPECT_EQ(a.judgement.findings[i].verdict, b.judgement.findings[i].verdict);
    EXPECT_EQ(a.judgement.findings[i].reason, b.judgement.findings[i].reason);
  }
}

TEST(Snapshot, ALaterCatalogDoesNotChangeAFrozenVerdict) {
  const std::string bytes = demo("greenhouse-circulator").dump();
  const JobFile job = decode_job_file(bytes);
  json document =
      json::parse(freeze(bytes, derive_snapshot(job, testing::catalog(), testing::step_files(), "test 1")));
  // The frozen plan is what a catalog with another sweep limit once gave.
  for (auto& step : document["snapshot"]["plan"]["steps"])
    for (auto& check : step["checks"])
      if (check["id"] == "impeller-sweep") check["limits"][0]["upper"]["si"] = 60e-6;
  EXPECT_EQ(testing::judge_document(document).of("impeller-sweep").verdict, Verdict::fail);
}

TEST(Snapshot, IsNotFrozenTwice) {
  const std::string bytes = demo("greenhouse-circulator").dump();
  const Snapshot made =
      derive_snapshot(decode_job_file(bytes), testing::catalog(), testing::step_files(), "test 1");
  const std::string frozen = freeze(bytes, made);
  EXPECT_NE(testing::refusal([&] { freeze(frozen, made); }).find("not frozen"), std::string::npos);
}

TEST(Snapshot, CarriesTheDigestsOfCatalogAndProgram) {
  const Snapshot made = derive_snapshot(decode_job_file(demo("greenhouse-circulator").dump()),
                                        testing::catalog(), testing::step_files(), "test 1");
  EXPECT_EQ(made.catalog_digest, testing::catalog().digest());
  EXPECT_EQ(made.program, "test 1");
}

}  // namespace
}  // namespace pumpwright::job

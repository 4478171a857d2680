#include "job/job_file.h"

#include <gtest/gtest.h>

#include "tests/unit/job/demo_job.h"

namespace pumpwright::job {
namespace {

using nlohmann::json;
using testing::demo;
using testing::reading_of;

std::string refusal_with(const std::string& pointer, const json& value) {
  json document = demo("greenhouse-circulator");
  document[json::json_pointer(pointer)] = value;
  return testing::refusal([&] { decode_job_file(document.dump()); });
}

TEST(JobFile, ReadsTheDemonstrationJobs) {
  const JobFile job = decode_job_file(demo("greenhouse-circulator").dump());
  EXPECT_EQ(job.header.number, "G-2117");
  EXPECT_TRUE(job.header.invented);
  EXPECT_EQ(job.instruments.size(), 8U);
  EXPECT_EQ(job.overrides.size(), 1U);
}

TEST(JobFile, EveryRefusalNamesItsPlaceAndWhatWouldBeValid) {
  const std::pair<std::string, json> broken[] = {{"/format", "other"},
                                                 {"/version", 2},
                                                 {"/extra", 1},
                                                 {"/job/number", ""},
                                                 {"/job/opened", "yesterday"},
                                                 {"/make_up/speed", "3550 mm"},
                                                 {"/make_up/speed", "0 rpm"},
                                                 {"/make_up/service/suction_pressure", "12 psi"},
                                                 {"/make_up/sleeve", true},
                                                 {"/make_up/impeller/keyways", 0},
                                                 {"/make_up/dimensions/hub_length", "-1 in"},
                                                 {"/shop/instruments/0/unit", "furlong"},
                                                 {"/shop/instruments/0/graduation", "0"},
                                                 {"/shop/instruments/0/due", "2020-01-01"},
                                                 {"/limits/0/rank", "boss"},
                                                 {"/events/0/event", "party"},
                                                 {"/events/0/time", "2026-02-30T00:00:00Z"}};
  for (const auto& [pointer, value] : broken) {
    const std::string message = refusal_with(pointer, value);
    EXPECT_NE(message.find(pointer.substr(0, pointer.rfind('/'))), std::string::npos)
        << pointer << ": " << message;
    EXPECT_NE(message.find("valid:"), std::string::npos) << pointer << ": " << message;
  }
}

TEST(JobFile, AReadingOnAnInstrumentNobodyHasIsRefused) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "end-float")["instrument"] = "dial-9";
  EXPECT_NE(testing::refusal([&] { decode_job_file(document.dump()); }).find("dial-9"), std::string::npos);
}

TEST(JobFile, ABareNumberTakesItsInstrumentsUnitAndAWrittenUnitWins) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "end-float")["value"] = "0.10 mm";
  const JobFile job = decode_job_file(document.dump());
  const auto value_of = [&](const std::string& check) {
    for (const auto& event : job.events) {
      const auto* taken = std::get_if<ReadingTaken>(&event);
      if (taken != nullptr && taken->reading.check == check)
        return std::get<ValueReading>(taken->reading.body).values[0].si;
    }
    return 0.0;
  };
  EXPECT_NEAR(value_of("end-float"), 1e-4, 1e-15);
  EXPECT_NEAR(value_of("key-length"), 1.188 * 0.0254, 1e-15);
}

TEST(JobFile, AReadingSaysOneThingOnly) {
  json document = demo("greenhouse-circulator");
  reading_of(document, "end-float")["done"] = true;
  EXPECT_NE(testing::refusal([&] { decode_job_file(document.dump()); }).find("one of"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::job

#include "shop/old_table.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "job/utc_time.h"

namespace pumpwright::shop {
namespace {

const job::UtcTime now = job::parse_utc_time("2026-11-25T12:00:00Z", "now");

OldColumns columns_of(const char* json) {
  return decode_old_columns(job::JsonReader::parse(json));
}

OldTable read(const char* csv, const char* columns = R"({"serial": "S/N", "came_in": "In"})") {
  return read_old_csv(csv, "book.csv", columns_of(columns), now);
}

TEST(OldTable, ReadsEveryColumnThatIsNamed) {
  const auto table = read(
      "No;S/N;Pump;Customer;Seal;In;Out;Why;Kind;Found;Done;Sweep;Shelf\n"
      "L-7;GH-1;circulator;greenhouse;EPDM;31.3.2024;2.4.2024;leaks;Repair;swollen;new seal;4;B2\n",
      R"({"number": "No", "serial": "S/N", "pump": "Pump", "customer": "Customer", "seal": "Seal", "came_in": "In",
          "went_out": "Out", "reason": "Why", "came_for": "Kind", "fault_words": ["repair"], "found": "Found",
          "changed": "Done", "dates": "day-month-year",
          "readings": [{"check": "impeller-sweep", "column": "Sweep", "unit": "thou"}]})");
  ASSERT_EQ(table.jobs.size(), 1U) << table.wrong.front().expected;
  const OldJob& job = table.jobs.front();
  EXPECT_EQ(job.number, "L-7");
  EXPECT_EQ(job.serial, "GH-1");
  EXPECT_EQ(job.pump + job.customer + job.seal, "circulatorgreenhouseEPDM");
  EXPECT_EQ(job::format_utc_day(job.came_in), "2024-03-31");
  EXPECT_EQ(job::format_utc_day(job.went_out.value()), "2024-04-02");
  EXPECT_EQ(job.reason + job.found + job.changed, "leaksswollennew seal");
  EXPECT_EQ(job.came_for, job::CameFor::fault);
  EXPECT_NEAR(job.readings.at("impeller-sweep").si, 4 * 25.4e-6, 1e-15);
  EXPECT_EQ(job.line, 2U);
  EXPECT_EQ(table.left_alone, (std::vector<std::string>{"Shelf"}));
}

TEST(OldTable, DaysAreReadInTheOrderThatIsSaid) {
  const std::pair<const char*, const char*> cases[] = {{"year-month-day", "2024-02-03"},
                                                       {"day-month-year", "3/2/2024"},
                                                       {"month-day-year", "2/3/24"},
                                                       {"year-month-day", "2024.2.3T07:30"}};
  for (const auto& [order, cell] : cases) {
    const auto table =
        read((std::string("S/N,In\nGH-1,") + cell + "\n").c_str(),
             (std::string(R"({"serial": "S/N", "came_in": "In", "dates": ")") + order + "\"}").c_str());
    ASSERT_EQ(table.jobs.size(), 1U) << cell;
    EXPECT_EQ(job::format_utc_day(table.jobs.front().came_in), "2024-02-03") << cell;
  }
}

TEST(OldTable, ARowThatDoesNotFitIsToldWithItsLineAndLeft) {
  const char* columns = R"({"number": "No", "serial": "S/N", "came_in": "In", "went_out": "Out",
                            "readings": [{"check": "end-float", "column": "Float", "unit": "mm"}]})";
  const auto table = read(
      "No,S/N,In,Out,Float\n"
      "1,GH-1,2024-01-01,2024-01-03,0.1\n"
      "2,,2024-01-01,,\n"
      "3,GH-3,soon,,\n"
      "4,GH-4,2024-02-30,,\n"
      "5,GH-5,2024-01-05,2024-01-04,\n"
      "6,GH-6,2027-01-01,,\n"
      "7,GH-7,2024-01-01,,0.1 furlong\n"
      "1,GH-8,2024-01-01,,\n"
      "9,GH-9\n"
      "10,GH-10,2024-01-01,,4 thou\n",
      columns);
  EXPECT_EQ(table.jobs.size(), 2U);
  const std::pair<const char*, const char*> wrong[] = {
      {"line 3", "S/N"}, {"line 4", "In"},    {"line 5", "In"}, {"line 6", "Out"},
      {"line 7", "In"},  {"line 8", "Float"}, {"line 9", "No"}, {"line 10", "columns"}};
  ASSERT_EQ(table.wrong.size(), std::size(wrong));
  EXPECT_EQ(table.wrong_count, std::size(wrong));
  for (std::size_t i = 0; i < std::size(wrong); ++i) {
    EXPECT_EQ(table.wrong[i].place, wrong[i].first);
    EXPECT_EQ(table.wrong[i].field, wrong[i].second);
    EXPECT_FALSE(table.wrong[i].expected.empty());
  }
  EXPECT_NEAR(table.jobs[1].readings.at("end-float").si, 4 * 25.4e-6, 1e-15);  // its own unit goes before
}

TEST(OldTable, WithoutANumberAJobIsCalledByItsSerialNumberAndDay) {
  const auto table = read("S/N,In\nGH-1,2024-01-01\nGH-1,2025-01-01\nGH-1,2025-01-01\n");
  ASSERT_EQ(table.jobs.size(), 2U);
  EXPECT_EQ(table.jobs[0].number, "GH-1 2024-01-01");
  EXPECT_EQ(table.wrong_count, 1U);
}

TEST(OldTable, AWordThatNobodyNamedSaysNothingAndIsCounted) {
  const auto table = read(
      "S/N,In,Kind\nA,2024-01-01,PM\nB,2024-01-01,leak\nC,2024-01-01,??\nD,2024-01-01,??\nE,2024-01-01,\n",
      R"({"serial": "S/N", "came_in": "In", "came_for": "Kind", "fault_words": ["Leak"],
                              "other_words": ["pm"]})");
  ASSERT_EQ(table.jobs.size(), 5U);
  EXPECT_EQ(table.jobs[0].came_for, job::CameFor::other);
  EXPECT_EQ(table.jobs[1].came_for, job::CameFor::fault);
  EXPECT_EQ(table.jobs[2].came_for, job::CameFor::not_said);
  EXPECT_EQ(table.words_unknown, (std::map<std::string, std::size_t>{{"??", 2}}));
}

TEST(OldTable, RefusesAFileWithoutAColumnThatIsNamed) {
  EXPECT_THROW(read("Serial,In\nA,2024-01-01\n"), BadInput);
  EXPECT_THROW(read(""), BadInput);
  EXPECT_THROW(read("S/N,In,In\n"), BadInput);
}

TEST(OldColumns, ComeBackAsTheyWereWritten) {
  const char* text = R"({"serial":"S/N","came_in":"In","number":"No","came_for":"Kind","fault_words":["a"],
    "other_words":["b"],"dates":"month-day-year","readings":[{"check":"end-float","column":"F","unit":"mm"}]})";
  EXPECT_EQ(nlohmann::json(encode_old_columns(columns_of(text))), nlohmann::json::parse(text));
}

TEST(OldColumns, RefusesWhatNoFileCanBeReadBy) {
  for (
      const char* text :
      {R"({"serial": "S/N"})", R"({"serial": "", "came_in": "In"})",
       R"({"serial": "a", "came_in": "b", "speed": "c"})",
       R"({"serial": "a", "came_in": "b", "dates": "soon"})",
       R"({"serial": "a", "came_in": "b", "readings": [{"check": "hours-slept", "column": "c", "unit": "thou"}]})",
       R"({"serial": "a", "came_in": "b", "readings": [{"check": "end-float", "column": "c", "unit": "psi"}]})",
       R"({"serial": "a", "came_in": "b", "readings": [{"check": "end-float", "column": "c", "unit": "mm"},
                                                        {"check": "end-float", "column": "d", "unit": "mm"}]})"})
    EXPECT_THROW(columns_of(text), BadInput) << text;
}

}  // namespace
}  // namespace pumpwright::shop

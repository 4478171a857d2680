#include "report/build_record.h"

#include <gtest/gtest.h>

#include "tests/unit/report/outside_pdf.h"
#include "tests/unit/report/sample_job.h"

namespace pumpwright::report {
namespace {

using testing::holds;
using testing::Outside;

TEST(BuildRecord, CarriesMetadataWithTheDateOfTheLastEvent) {
  const auto sample = testing::sample_job();
  const std::string info = Outside(build_record_pdf(sample.input())).info();
  EXPECT_TRUE(holds(info, "Build record T-0001")) << info;
  EXPECT_TRUE(holds(info, "Pump shop technician"));
  EXPECT_TRUE(holds(info, "Build record of job T-0001: invented end-suction pump"));
  EXPECT_TRUE(holds(info, "SN-17"));
  EXPECT_TRUE(holds(info, "2026"));
  EXPECT_TRUE(holds(info, "595.276 x 841.89 pts (A4)"));
}

TEST(BuildRecord, IsTheSameForTheSameRecord) {
  const auto sample = testing::sample_job();
  EXPECT_EQ(build_record_pdf(sample.input()), build_record_pdf(sample.input()));
}

TEST(BuildRecord, CanBeSearched) {
  const auto sample = testing::sample_job();
  const std::string text = Outside(build_record_pdf(sample.input())).text();
  for (const char* part : {"T-0001",
                           "Invented demonstration data",
                           "184JM",
                           "elastomer bellows, EPDM",
                           "82 degC",
                           "3550 rpm",
                           "Register runout",
                           "1.3741 in",
                           "34.902",
                           "An invented standard",
                           "Set aside",
                           "Habit of the trade",
                           "unproven",
                           "not taken",
                           "End float",
                           "To settle it: an indicator of 0.1 thou",
                           "High spot at clock position",
                           "Departures ×",
                           "Seal working length as installed",
                           "34.60 mm ± 0.16 mm",
                           "replaced by r4",
                           "released by L.H.",
                           "Signature",
                           "pumpwright 0.1.0"})
    EXPECT_TRUE(holds(text, part)) << part;
}

TEST(BuildRecord, PrintsTheHashInFullAndNumbersItsPages) {
  const auto sample = testing::sample_job();
  const Outside document(build_record_pdf(sample.input()));
  const std::string text = document.raw_text();
  EXPECT_TRUE(holds(text, "Record hash: " + sample.record_hash));
  const int pages = document.pages();
  ASSERT_GE(pages, 3);
  for (int page = 1; page <= pages; ++page)
    EXPECT_TRUE(holds(text, "page " + std::to_string(page) + " of " + std::to_string(pages))) << page;
}

TEST(BuildRecord, EmbedsItsFonts) {
  const auto sample = testing::sample_job();
  const std::string fonts = Outside(build_record_pdf(sample.input())).fonts();
  // Columns of pdffonts: … emb sub uni …
  EXPECT_TRUE(holds(fonts, "yes yes yes")) << fonts;
  EXPECT_FALSE(holds(fonts, " no  ")) << fonts;
}

TEST(BuildRecord, SpeaksSpanish) {
  const auto sample = testing::sample_job();
  const std::string text = Outside(build_record_pdf(sample.input(job::Language::spanish))).text();
  for (const char* part : {"Registro de montaje", "Datos de demostración inventados",
                           "Alabeo radial del centrador", "Puntos abiertos", "página 1 de"})
    EXPECT_TRUE(holds(text, part)) << part;
  EXPECT_FALSE(holds(text, "Open points"));
}

TEST(BuildRecord, FitsLetterPaper) {
  const auto sample = testing::sample_job();
  EXPECT_TRUE(holds(Outside(build_record_pdf(sample.input(job::Language::english, Paper::letter))).info(),
                    "612 x 792 pts (letter)"));
}

TEST(BuildRecord, OfRealDataDoesNotSayInvented) {
  auto sample = testing::sample_job();
  sample.header.invented = false;
  EXPECT_FALSE(holds(Outside(build_record_pdf(sample.input())).text(), "Invented demonstration data"));
}

TEST(BuildRecord, OfAJobWithNothingReadSaysSo) {
  const auto sample = testing::empty_job();
  const std::string text = Outside(build_record_pdf(sample.input())).text();
  EXPECT_TRUE(holds(text, "Nothing stands open."));
  EXPECT_TRUE(holds(text, "no limit known"));
}

TEST(BuildRecord, BreaksALongTableOverPagesAndRepeatsItsHead) {
  auto sample = testing::sample_job();
  job::Step& step = sample.snapshot.plan.steps[1];
  const job::Check like = step.checks[0];
  for (int i = 0; i < 60; ++i) {
    job::Check check = like;
    check.id = "extra-" + std::to_string(i);
    check.title = {"Extra check " + std::to_string(i), "Control adicional " + std::to_string(i)};
    step.checks.push_back(check);
    job::CheckFinding finding = sample.finding("sleeve-size");
    finding.check = check.id;
    sample.judgement.findings.push_back(finding);
  }
  const Outside document(build_record_pdf(sample.input()));
  const std::string text = document.raw_text();
  EXPECT_GE(document.pages(), 7);
  std::size_t heads = 0;
  for (auto at = text.find("Limit, who set it, source"); at != std::string::npos;
       at = text.find("Limit, who set it, source", at + 1))
    ++heads;
  EXPECT_GE(heads, 4U);
  for (int i = 0; i < 60; ++i)
    EXPECT_TRUE(holds(text, "Extra check " + std::to_string(i)));
}

TEST(BuildRecord, KeepsWithinThePageWhateverLengthTheTextsHave) {
  auto sample = testing::sample_job();
  const std::string word(300, 'w');
  sample.header.customer = word;
  sample.header.reason = std::string(4000, 'r');
  sample.header.number = std::string(120, '8');
  sample.check("register-sweep").limits[0].source.document = std::string(4000, 's');
  sample.finding("register-sweep").readings[0].remarks.assign(80, {word + " " + word, word});
  sample.judgement.open.assign(50, {"parts", "end-float", {word, word}});
  sample.state.deviations["working-length"].reason = std::string(4096, 'd');
  EXPECT_GE(Outside(build_record_pdf(sample.input())).pages(), 5);
}

}  // namespace
}  // namespace pumpwright::report

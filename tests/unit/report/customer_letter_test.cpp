// The letter to a pump's owner, as poppler's programs read it.
#include "report/customer_letter.h"

#include <gtest/gtest.h>

#include "catalog/embedded.h"
#include "tests/unit/report/outside_pdf.h"
#include "tests/unit/report/sample_job.h"

namespace pumpwright::report {
namespace {

using testing::holds;
using testing::Outside;

const job::CauseTables& tables() {
  static const job::CauseTables shipped = job::CauseTables::from(Catalog::load(embedded_catalog()));
  return shipped;
}

job::StripDownSheet stripped(const std::vector<std::string>& found) {
  job::StripDownSheet sheet;
  sheet.complaint = "drips again";
  sheet.hours_run = testing::written("5100 h", Kind::time);
  for (const auto& word : found)
    sheet.found.push_back({word, "", "", "", ""});
  return sheet;
}

std::string letter(const job::StripDownSheet& sheet, job::Language language = job::Language::english,
                   Paper paper = Paper::a4) {
  const auto sample = testing::sample_job();
  const auto cause = job::cause_of(tables(), sheet);
  return customer_letter_pdf(
      {.record = sample.input(language, paper), .tables = tables(), .strip_down = sheet, .cause = cause});
}

TEST(CustomerLetter, SaysWhatWasFoundWhyWhatWasDoneAndWhatToChange) {
  const std::string text = Outside(letter(stripped({"heat-checks", "lost-prime", "face-tinted"}))).text();
  for (const char* part :
       {"Why your pump came back", "drips again", "It had run 5100 h", "fine cracks across the hard face",
        "Most likely: faces ran dry", "our own estimate", "checks pass",
        "Fill and vent the pump before every start", "lock it out", "page 1 of 1"})
    EXPECT_TRUE(holds(text, part)) << part << "\n" << text;
}

TEST(CustomerLetter, WhereTheEvidenceDoesNotTellTheLetterDoesNot) {
  const std::string text = Outside(letter(stripped({"heat-checks"}))).text();
  EXPECT_TRUE(holds(text, "Can not tell yet"));
  EXPECT_TRUE(holds(text, "We do not claim more than the parts say"));
  EXPECT_FALSE(holds(text, "Most likely"));
}

TEST(CustomerLetter, SpeaksSpanish) {
  const std::string text =
      Outside(letter(stripped({"heat-checks", "lost-prime", "face-tinted"}), job::Language::spanish)).text();
  for (const char* part : {"Por qué volvió su bomba", "Lo más probable: caras en seco",
                           "Lo que usted debería cambiar", "Había trabajado 5100 h"})
    EXPECT_TRUE(holds(text, part)) << part << "\n" << text;
}

TEST(CustomerLetter, StaysOnOnePageHoweverMuchWasWritten) {
  job::StripDownSheet sheet =
      stripped({"heat-checks", "face-tinted", "lost-prime", "metal-blued", "elastomer-hard", "face-grooved",
                "track-wide", "sleeve-fretted", "drive-worn", "chips-outside"});
  sheet.complaint = std::string(490, 'w') + " it drips";
  for (auto& thing : sheet.found)
    thing.where =
        "all round, deeper between 2 and 5 o'clock, and once more beside the keyway " + std::string(100, 'w');
  for (const Paper paper : {Paper::a4, Paper::letter})
    for (const auto language : {job::Language::english, job::Language::spanish})
      EXPECT_EQ(Outside(letter(sheet, language, paper)).pages(), 1);
}

TEST(CustomerLetter, IsTheSameForTheSameRecord) {
  EXPECT_EQ(letter(stripped({"lost-prime"})), letter(stripped({"lost-prime"})));
}

}  // namespace
}  // namespace pumpwright::report

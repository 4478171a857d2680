// Which part is out, as the record draws it.
#include "report/true_drawing.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "report/drawings.h"
#include "tests/unit/job/demo_job.h"

namespace pumpwright::report {
namespace {

using job::testing::demo;
using job::testing::judge_document;

std::vector<TrueDrawing> drawings_of(const nlohmann::json& document, job::Language language) {
  const auto judged = judge_document(document);
  return true_drawings(judged.snapshot, judged.state, judged.judgement, language);
}

TEST(TrueDrawing, TellsWhatTurnsAndWhatStandsApart) {
  const auto drawings = drawings_of(demo("orchard-wash"), job::Language::english);
  ASSERT_EQ(drawings.size(), 2U);
  EXPECT_EQ(drawings[0].id, "turning");
  EXPECT_NE(drawings[0].found.find("from the keyway"), std::string::npos);
  EXPECT_NE(drawings[0].up.find("from the keyway"), std::string::npos);
  EXPECT_EQ(drawings[1].id, "standing");
  EXPECT_EQ(drawings[1].up.find("from the keyway"), std::string::npos);
}

TEST(TrueDrawing, SaysTheWorkThatIsAdvisedOnlyWhereASweepIsBeyondItsLimit) {
  EXPECT_FALSE(drawings_of(demo("orchard-wash"), job::Language::english)[0].advised.empty());
  for (const auto& drawing : drawings_of(demo("greenhouse-circulator"), job::Language::spanish))
    EXPECT_TRUE(drawing.advised.empty());
}

TEST(TrueDrawing, StatesItsMagnification) {
  const auto drawing = drawings_of(demo("orchard-wash"), job::Language::english)[0];
  EXPECT_GT(drawing.magnification, 1);
  EXPECT_NE(drawing.caption.find(std::to_string(static_cast<int>(drawing.magnification))), std::string::npos);
}

TEST(TrueDrawing, IsADrawingOfTheRecordLikeTheOthers) {
  const auto judged = judge_document(demo("orchard-wash"));
  const auto section = job::section_of(judged.snapshot.make_up);
  const BuildRecordInput input{judged.job.header, judged.snapshot, judged.state,
                               judged.judgement,  section,         "00"};
  const auto names = drawing_names(input);
  EXPECT_NE(std::find(names.begin(), names.end(), "turning"), names.end());
  const auto svg = drawing(input, "turning", Picture::svg);
  ASSERT_TRUE(svg.has_value());
  EXPECT_NE(svg->find("<svg"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::report

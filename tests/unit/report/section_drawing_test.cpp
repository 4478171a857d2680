#include "report/section_drawing.h"

#include <gtest/gtest.h>

#include "tests/unit/report/sample_job.h"

namespace pumpwright::report {
namespace {

TEST(UsualScale, IsTheLargestThatFits) {
  const double page_pt = 170 * 72 / 25.4;  // 170 mm
  EXPECT_DOUBLE_EQ(1 / usual_scale(0.340, 0.1, {page_pt, page_pt}), 2);
  EXPECT_DOUBLE_EQ(1 / usual_scale(0.341, 0.1, {page_pt, page_pt}), 2.5);
  EXPECT_DOUBLE_EQ(usual_scale(0.017, 0.001, {page_pt, page_pt}), 10);
}

TEST(ScaleText, SaysPaperToPump) {
  EXPECT_EQ(scale_text(0.4), "1 : 2.5");
  EXPECT_EQ(scale_text(1), "1 : 1");
  EXPECT_EQ(scale_text(2), "2 : 1");
}

TEST(SectionMarkers, GatherTheChecksOfOnePlace) {
  auto sample = testing::sample_job();
  sample.check("end-float").place = "register";
  const auto markers = section_markers(sample.snapshot.plan, sample.judgement, sample.section);
  ASSERT_EQ(markers.size(), 4U);
  EXPECT_EQ(markers[2].place, "register");
  ASSERT_EQ(markers[2].checks.size(), 2U);
  EXPECT_EQ(markers[2].checks[0].verdict, job::Verdict::unproven);
  EXPECT_EQ(markers[2].checks[1].verdict, job::Verdict::not_taken);
  EXPECT_TRUE(markers[3].checks[0].deviation_accepted);
}

TEST(SectionMarkers, LeaveOutPlacesTheSectionDoesNotHave) {
  auto sample = testing::sample_job();
  sample.check("end-float").place = "coupling";
  EXPECT_EQ(section_markers(sample.snapshot.plan, sample.judgement, sample.section).size(), 4U);
}

TEST(SectionDrawing, StaysInsideItsBoxWithEveryPlaceMarked) {
  const auto sample = testing::sample_job();
  std::vector<SectionMarker> markers;
  for (const auto place : job::place_names())
    markers.push_back({std::string(place), {{job::Verdict::fail, false}, {job::Verdict::pass, false}}});
  for (const auto language : {job::Language::english, job::Language::spanish})
    render_svg({500, 430}, [&](Canvas& canvas) {
      const auto drawn =
          draw_section(canvas, {0, 0, 500, 430}, whole_view(sample.section, markers), language);
      EXPECT_LE(drawn.height, 430);
      EXPECT_GT(drawn.ratio, 0.2);
    });
}

TEST(SectionDrawing, IsDrawnWithoutAnyMarker) {
  const auto sample = testing::empty_job();
  const std::string svg = render_svg({500, 430}, [&](Canvas& canvas) {
    draw_section(canvas, {0, 0, 500, 430}, whole_view(sample.section, {}), job::Language::english);
  });
  EXPECT_NE(svg.find("</svg>"), std::string::npos);
}

}  // namespace
}  // namespace pumpwright::report

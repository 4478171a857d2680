#include "report/polar_plot.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/unit/report/sample_job.h"

namespace pumpwright::report {
namespace {

constexpr auto english = job::Language::english;

std::vector<PolarPlot> plots_of(const testing::SampleJob& sample) {
  return polar_plots(sample.snapshot.plan, sample.state, sample.judgement, english);
}

std::string drawn(const PolarPlot& plot) {
  return render_svg({260, 500}, [&](Canvas& canvas) { draw_polar(canvas, {5, 5}, 240, plot, english); });
}

TEST(UsualMagnification, IsARoundNumberWithWhichTheLargestDepartureFits) {
  const double room_pt = 10 * 72 / 25.4;  // 10 mm
  EXPECT_DOUBLE_EQ(usual_magnification(20e-6, room_pt), 500);
  EXPECT_DOUBLE_EQ(usual_magnification(20.1e-6, room_pt), 400);
  EXPECT_DOUBLE_EQ(usual_magnification(0, room_pt), 1);
  EXPECT_GT(usual_magnification(50, room_pt), 0);
}

TEST(PolarPlots, ShowEveryReadingAboutTheMean) {
  const auto plots = plots_of(testing::sample_job());
  ASSERT_EQ(plots.size(), 1U);
  const PolarPlot& plot = plots[0];
  EXPECT_EQ(plot.id, "register-sweep");
  ASSERT_EQ(plot.points.size(), 12U);
  double sum = 0;
  for (const PolarPoint& p : plot.points)
    sum += p.deviation_m;
  EXPECT_NEAR(sum, 0, 1e-9);
  EXPECT_EQ(plot.turning, job::Turning::standing);
  ASSERT_TRUE(plot.limit);
  EXPECT_EQ(plot.limit->on, PolarLimitOn::tir);
  EXPECT_NEAR(plot.limit->size_m, 4 * 2.54e-5, 1e-15);
}

TEST(PolarPlots, PointTheHighSpotWhereTheCentreLies) {
  const auto plots = plots_of(testing::sample_job());
  ASSERT_EQ(plots.size(), 1U);
  ASSERT_EQ(plots[0].direction, Direction::claimed);
  EXPECT_NEAR(plots[0].high_spot_deg, 120, 3);
  ASSERT_TRUE(plots[0].centre);
  const double deg = std::atan2(plots[0].centre->towards_90_m, plots[0].centre->towards_0_m) * 180 / pi;
  EXPECT_NEAR(deg, plots[0].high_spot_deg, 1e-6);
}

TEST(PolarPlots, ClaimNoDirectionWithoutAMount) {
  auto sample = testing::sample_job();
  testing::put_sweep(sample, testing::sweep_with(12, 1.9, ""));
  const auto plots = plots_of(sample);
  ASSERT_EQ(plots.size(), 1U);
  EXPECT_EQ(plots[0].direction, Direction::mount_missing);
}

TEST(PolarPlots, ClaimNoDirectionWhenTheCentreMayBeTheAxis) {
  auto sample = testing::sample_job();
  testing::put_sweep(sample, testing::sweep_with(12, 0.01, "housing"));
  const auto plots = plots_of(sample);
  ASSERT_EQ(plots.size(), 1U);
  EXPECT_EQ(plots[0].direction, Direction::not_distinguishable);
}

TEST(PolarPlots, JoinChecksThatAreJudgedFromOneSweep) {
  auto sample = testing::sample_job();
  job::Check check = sample.check("register-sweep");
  check.id = "register-centre";
  check.from = "register-sweep";
  check.judged = job::Judged::eccentricity;
  sample.snapshot.plan.steps[1].checks.push_back(check);
  job::CheckFinding finding = sample.finding("register-sweep");
  finding.check = "register-centre";
  finding.readings.front().verdict = job::Verdict::fail;
  sample.judgement.findings.push_back(finding);
  const auto plots = plots_of(sample);
  ASSERT_EQ(plots.size(), 1U);
  EXPECT_EQ(plots[0].verdict, job::Verdict::fail);
  EXPECT_EQ(plots[0].caption.size(), 3U);  // TIR, eccentricity, as written
}

TEST(PolarPlot, IsDrawnWithoutReadings) {
  PolarPlot plot;
  plot.title = "nothing";
  EXPECT_NE(drawn(plot).find("</svg>"), std::string::npos);
}

TEST(PolarPlot, IsDrawnWithThousandsOfReadingsAndAHugeEccentricity) {
  auto sample = testing::sample_job();
  testing::put_sweep(sample, testing::sweep_with(3600, 400, "housing"));
  const auto plots = plots_of(sample);
  ASSERT_EQ(plots.size(), 1U);
  EXPECT_EQ(plots[0].points.size(), 3600U);
  EXPECT_NE(drawn(plots[0]).find("</svg>"), std::string::npos);
}

TEST(PolarPlot, IsDrawnWhenAllReadingsAreEqual) {
  PolarPlot plot;
  for (int i = 0; i < 8; ++i)
    plot.points.push_back({i * 45.0, 0, false});
  plot.limit = {PolarLimitOn::tir, 1e-4};
  plot.centre = PolarCentre{};
  EXPECT_NE(drawn(plot).find("</svg>"), std::string::npos);
}

TEST(PolarPlot, TakesTheHeightItSays) {
  const auto plots = plots_of(testing::sample_job());
  ASSERT_EQ(plots.size(), 1U);
  double height = 0;
  render_svg({260, 500}, [&](Canvas& canvas) { height = polar_height(canvas, 240, plots[0], english); });
  // Below that height the paper stays white.
  const auto picture = [&](double tall) {
    return render_png({250, 600}, 1, [&](Canvas& canvas) {
      canvas.clipped(Box{0, 0, 250, tall}, [&] { draw_polar(canvas, {5, 0}, 240, plots[0], english); });
    });
  };
  EXPECT_EQ(picture(height), picture(600));
  EXPECT_NE(picture(height - 12), picture(600));
}

}  // namespace
}  // namespace pumpwright::report

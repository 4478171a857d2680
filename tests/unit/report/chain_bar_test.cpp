#include "report/chain_bar.h"

#include <gtest/gtest.h>

#include "tests/unit/report/sample_job.h"

namespace pumpwright::report {
namespace {

constexpr auto english = job::Language::english;

std::string drawn(const ChainBar& bar) {
  return render_svg({560, 400}, [&](Canvas& canvas) { draw_chain(canvas, {5, 5}, 540, bar, english); });
}

TEST(ChainBars, HaveSignedLinksThatAddUpToTheSum) {
  const auto sample = testing::sample_job();
  const auto bars = chain_bars(sample.snapshot.plan, sample.judgement, english);
  ASSERT_EQ(bars.size(), 1U);
  double sum = 0;
  for (const ChainLinkBar& link : bars[0].links)
    sum += link.signed_value_m;
  ASSERT_TRUE(bars[0].sum_m);
  EXPECT_NEAR(sum, *bars[0].sum_m, 1e-12);
  EXPECT_EQ(bars[0].lower, "32.5 mm");
  EXPECT_EQ(bars[0].sum, "34.60 mm");
  EXPECT_EQ(bars[0].sum_with_doubt, "34.60 mm ± 0.16 mm");
  EXPECT_TRUE(bars[0].deviation_accepted);
}

TEST(ChainBar, IsDrawnWithoutLinksOrLimits) {
  ChainBar bar;
  bar.title = "nothing yet";
  EXPECT_NE(drawn(bar).find("</svg>"), std::string::npos);
  bar.links = {{"only one", 0.01, "10 mm", 0}};
  EXPECT_NE(drawn(bar).find("</svg>"), std::string::npos);
  bar.sum_m = 0.01;
  bar.sum = "10 mm";
  EXPECT_NE(drawn(bar).find("</svg>"), std::string::npos);
}

TEST(ChainBar, IsDrawnWhenLinksCancel) {
  ChainBar bar;
  bar.links = {{"one", 0, "0 mm", 0}, {"other", 0, "0 mm", 0}};
  bar.sum_m = 0;
  bar.upper_m = 0;
  EXPECT_NE(drawn(bar).find("</svg>"), std::string::npos);
}

TEST(ChainBar, TakesTheHeightItSays) {
  const auto sample = testing::sample_job();
  const ChainBar bar = chain_bars(sample.snapshot.plan, sample.judgement, english).front();
  double height = 0;
  render_svg({560, 400}, [&](Canvas& canvas) { height = chain_height(canvas, 540, bar); });
  const auto picture = [&](double tall) {
    return render_png({560, 500}, 1, [&](Canvas& canvas) {
      canvas.clipped(Box{0, 0, 560, tall}, [&] { draw_chain(canvas, {5, 0}, 540, bar, english); });
    });
  };
  EXPECT_EQ(picture(height), picture(500));
}

}  // namespace
}  // namespace pumpwright::report

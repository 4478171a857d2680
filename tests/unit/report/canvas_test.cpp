#include "report/canvas.h"

#include <gtest/gtest.h>

namespace pumpwright::report {
namespace {

void draw_something(Canvas& canvas) {
  canvas.rectangle({10, 10, 50, 30}, {Colour{0.2, 0.4, 0.6}, std::nullopt});
  canvas.text({10, 50}, "sleeve 1.3741 in", {9, Weight::bold, {}, Align::left}, 80);
}

TEST(Canvas, GivesTheSameBytesForTheSameDrawing) {
  EXPECT_EQ(render_svg({100, 80}, draw_something), render_svg({100, 80}, draw_something));
  EXPECT_EQ(render_png({100, 80}, 2, draw_something), render_png({100, 80}, 2, draw_something));
}

TEST(Canvas, MakesPngOfTheSizeAskedFor) {
  const std::string png = render_png({100, 80}, 2, draw_something);
  ASSERT_GT(png.size(), 24U);
  EXPECT_EQ(png.substr(1, 3), "PNG");
  // Width and height stand big-endian at offset 16 (W3C PNG specification, clause 11.2.2).
  EXPECT_EQ(static_cast<unsigned char>(png[19]), 200);
  EXPECT_EQ(static_cast<unsigned char>(png[23]), 160);
}

TEST(Canvas, BreaksAWordThatIsWiderThanItsColumn) {
  render_svg({100, 100}, [](Canvas& canvas) {
    const Type type{9, Weight::regular, {}, Align::left};
    const PageSize size = canvas.measure("Leistungsbeschreibungsunterlagenverzeichnis", type, 60);
    EXPECT_LE(size.width, 60.5);
    EXPECT_GT(size.height, 1.9 * canvas.measure("L", type).height);
  });
}

TEST(Canvas, MeasuresWhatItDraws) {
  render_svg({100, 100}, [](Canvas& canvas) {
    const Type type{9, Weight::medium, {}, Align::centre};
    const PageSize measured = canvas.measure("Impeller eye ring", type, 40);
    const PageSize drawn = canvas.text({0, 0}, "Impeller eye ring", type, 40);
    EXPECT_EQ(measured.width, drawn.width);
    EXPECT_EQ(measured.height, drawn.height);
  });
}

TEST(Canvas, SetsAllFiguresEquallyWide) {
  render_svg({100, 100}, [](Canvas& canvas) {
    const Type type{9, Weight::regular, {}, Align::left};
    const double one = canvas.measure("1111111111", type).width;
    for (const char* figures : {"0000000000", "7777777777", "4444444444"})
      EXPECT_NEAR(canvas.measure(figures, type).width, one, 0.01);
  });
}

TEST(Canvas, SurvivesTextThatIsNotUtf8) {
  const std::string svg = render_svg({100, 100}, [](Canvas& canvas) {
    EXPECT_GT(canvas.text({0, 0}, "a\xC3(\xFF b", {}).width, 0);
  });
  EXPECT_NE(svg.find("</svg>"), std::string::npos);
}

TEST(Canvas, DrawsNothingOutsideAClip) {
  const auto black = [](Canvas& canvas) { canvas.rectangle({0, 0, 40, 40}, {Colour{}, std::nullopt}); };
  const std::string blank = render_png({40, 40}, 1, [](Canvas&) {});
  const std::string clipped = render_png({40, 40}, 1, [&](Canvas& canvas) {
    canvas.clipped(Box{50, 50, 10, 10}, [&] { black(canvas); });
  });
  EXPECT_EQ(clipped, blank);
  EXPECT_NE(render_png({40, 40}, 1, black), blank);
}

}  // namespace
}  // namespace pumpwright::report

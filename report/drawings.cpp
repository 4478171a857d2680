#include "report/drawings.h"

#include <algorithm>

#include "report/chain_bar.h"
#include "report/face_picture.h"
#include "report/polar_plot.h"
#include "report/section_drawing.h"
#include "report/true_drawing.h"

namespace pumpwright::report {
namespace {

constexpr double margin = 14;
constexpr double pixels_per_point = 3;
constexpr std::string_view sweep_prefix = "sweep:";
constexpr std::string_view chain_prefix = "chain:";

std::string render(PageSize size, Picture picture, const Draw& draw) {
  return picture == Picture::svg ? render_svg(size, draw) : render_png(size, pixels_per_point, draw);
}

// Renders what `draw` puts at the margin's corner; `height` measures it first.
template <class Height, class DrawAt>
std::string framed(double width, Picture picture, const Height& height, const DrawAt& draw) {
  double tall = 0;
  render_svg({width, 10}, [&](Canvas& canvas) { tall = height(canvas); });
  return render({width + 2 * margin, tall + 2 * margin}, picture, [&](Canvas& canvas) {
    draw(canvas, Point{margin, margin});
  });
}

std::string section_picture(const BuildRecordInput& in, const SectionView& view, Picture picture) {
  const PageSize most{680, 480};
  const auto draw = [&](Canvas& canvas, Point at) {
    return draw_section(canvas, {at.x, at.y, most.width, most.height}, view, in.language).height;
  };
  return framed(
      most.width, picture,
      [&](Canvas& canvas) {
        return draw(canvas, {0, 0});
      },
      draw);
}

}  // namespace

std::vector<std::string> drawing_names(const BuildRecordInput& in) {
  std::vector<std::string> names{"section", "seal"};
  if (face_picture(in.snapshot, in.state, in.language)) names.emplace_back("faces");
  for (const TrueDrawing& chain : true_drawings(in.snapshot, in.state, in.judgement, in.language))
    names.push_back(chain.id);
  for (const PolarPlot& plot : polar_plots(in.snapshot.plan, in.state, in.judgement, in.language))
    names.push_back(std::string(sweep_prefix) + plot.id);
  for (const ChainBar& bar : chain_bars(in.snapshot.plan, in.judgement, in.language))
    names.push_back(std::string(chain_prefix) + bar.id);
  return names;
}

std::optional<std::string> drawing(const BuildRecordInput& in, std::string_view name, Picture picture) {
  if (name == "section" || name == "seal") {
    auto markers = section_markers(in.snapshot.plan, in.judgement, in.section);
    const SectionView view = name == "seal" ? seal_view(in.section, std::move(markers))
                                            : whole_view(in.section, std::move(markers));
    return section_picture(in, view, picture);
  }
  if (name == "faces") {
    constexpr double width = 560;
    const auto faces = face_picture(in.snapshot, in.state, in.language);
    if (!faces) return std::nullopt;
    return framed(
        width, picture, [&](Canvas&) { return face_height(*faces); },
        [&](Canvas& c, Point at) { draw_face(c, at, width, *faces); });
  }
  if (name == "turning" || name == "standing") {
    constexpr double width = 560;
    for (const TrueDrawing& chain : true_drawings(in.snapshot, in.state, in.judgement, in.language))
      if (chain.id == name)
        return framed(
            width, picture, [&](Canvas& c) { return true_height(c, width, chain); },
            [&](Canvas& c, Point at) { draw_true(c, at, width, chain); });
    return std::nullopt;
  }
  if (name.starts_with(sweep_prefix)) {
    constexpr double width = 320;
    for (const PolarPlot& plot : polar_plots(in.snapshot.plan, in.state, in.judgement, in.language))
      if (plot.id == name.substr(sweep_prefix.size()))
        return framed(
            width, picture, [&](Canvas& c) { return polar_height(c, width, plot, in.language); },
            [&](Canvas& c, Point at) { draw_polar(c, at, width, plot, in.language); });
  }
  if (name.starts_with(chain_prefix)) {
    constexpr double width = 560;
    for (const ChainBar& bar : chain_bars(in.snapshot.plan, in.judgement, in.language))
      if (bar.id == name.substr(chain_prefix.size()))
        return framed(
            width, picture, [&](Canvas& c) { return chain_height(c, width, bar); },
            [&](Canvas& c, Point at) { draw_chain(c, at, width, bar, in.language); });
  }
  return std::nullopt;
}

}  // namespace pumpwright::report

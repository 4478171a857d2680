// Head over flow at the rated speed, with what was promised as a cross as long as its tolerances; below it
// the efficiency, where power was measured.
#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "engine/hydraulics/figure_coverage.h"
#include "job/sheet_chart.h"
#include "job/sheets/performance_check.h"
#include "job/sheets/performance_wording.h"

namespace pumpwright::job::performance {
namespace {

using hydraulics::PumpCurves;

constexpr double head_top = 22;
constexpr double head_height = 150;
constexpr double efficiency_height = 70;
constexpr double between_charts = 26;
constexpr std::size_t curve_points = 41;
constexpr double dot = 2.5;

struct Axes {
  ChartAxis flow, head;
};

std::vector<double> flows_over(const PumpCurves& curves) {
  const double low = curves.head.lowest_m3_s(), high = curves.head.highest_m3_s();
  std::vector<double> out(curve_points);
  for (std::size_t i = 0; i < curve_points; ++i)
    out[i] = low + (high - low) * static_cast<double>(i) / (curve_points - 1);
  return out;
}

void widen(ChartAxis& axis, double value) {
  axis.low = std::min(axis.low, value);
  axis.high = std::max(axis.high, value);
}

Axes axes_of(const PerformanceResult& result) {
  const auto& [sheet, finding] = result;
  const PumpUnits units = units_of(sheet.test);
  const PumpCurves& curves = finding.model.curves();
  Axes axes{{0, curves.head.highest_m3_s(), units.flow, {"flow", "caudal"}},
            {std::numeric_limits<double>::infinity(), 0, units.head, {"head", "altura"}}};
  for (const double flow : flows_over(curves))
    widen(axes.head, curves.head.at(flow));
  const auto& tolerance = agreed_grade(sheet, finding)->tolerance;
  const auto& promised = sheet.guarantee->promised;
  widen(axes.flow, promised.flow.value() * (1 + tolerance.flow_high));
  widen(axes.head, promised.head.value() * (1 + tolerance.head_high));
  widen(axes.head, promised.head.value() * (1 + tolerance.head_low));
  const double room = 0.06 * (axes.head.high - axes.head.low);
  axes.head.low = std::max(0.0, axes.head.low - room);
  axes.head.high += room;
  axes.flow.high *= 1.02;
  return axes;
}

void draw_curve(SheetPicture& picture, const SheetChart& chart, Ink ink, const std::vector<double>& flows,
                const std::vector<double>& values) {
  PictureStroke stroke{ink, {}, false};
  for (std::size_t i = 0; i < flows.size(); ++i)
    stroke.points.push_back(chart.at(flows[i], values[i]));
  picture.strokes.push_back(std::move(stroke));
}

std::vector<double> heads_at(const PumpCurves& curves, const std::vector<double>& flows) {
  std::vector<double> out;
  out.reserve(flows.size());
  for (const double flow : flows)
    out.push_back(curves.head.at(flow));
  return out;
}

// The curve and, to either side, the half-width of 95 % coverage.
void draw_head(SheetPicture& picture, const SheetChart& chart, const PerformanceFinding& finding) {
  const PumpCurves& curves = finding.model.curves();
  const auto flows = flows_over(curves);
  draw_curve(picture, chart, Ink::found, flows, heads_at(curves, flows));
  const auto figures = finding.model.propagate(
      [&](const PumpCurves& c, std::span<double> out) {
        for (std::size_t i = 0; i < flows.size(); ++i)
          out[i] = c.head.at(flows[i]);
      },
      flows.size());
  for (const double side : {-1.0, 1.0}) {
    std::vector<double> edge;
    edge.reserve(figures.size());
    for (const auto& figure : figures)
      edge.push_back(figure.value + side * expanded_95(figure));
    draw_curve(picture, chart, Ink::guide, flows, edge);
  }
}

// Where the head would be met: at the speed, or after the cut, whose factor the remedy names.
void draw_remedy(SheetPicture& picture, const SheetChart& chart, const PerformanceFinding& finding,
                 const ChartAxis& across) {
  if (!finding.remedy || std::fabs(finding.remedy->factor - 1) < 1e-3) return;
  const double factor = finding.remedy->factor;
  const PumpCurves& curves = finding.model.curves();
  std::vector<double> flows, heads;
  for (const double flow : flows_over(curves)) {
    if (flow * factor > across.high) break;
    flows.push_back(flow * factor);
    heads.push_back(curves.head.at(flow) * factor * factor);
  }
  draw_curve(picture, chart, Ink::wanted, flows, heads);
}

void draw_points(SheetPicture& picture, const SheetChart& chart, const PerformanceFinding& finding) {
  const std::vector<double> as_read(finding.model.sources().size());
  for (std::size_t i = 0; i < finding.model.results().size(); ++i) {
    const auto point = finding.model.rated_point(i, as_read);
    picture.circles.push_back({Ink::found, chart.at(point.flow_m3_s, point.head_m), dot});
  }
}

void draw_bar(SheetPicture& picture, PicturePoint from, PicturePoint to) {
  picture.strokes.push_back({Ink::limit, {from, to}, true});
  const bool across = from.y == to.y;
  for (const auto& end : {from, to})
    picture.strokes.push_back({Ink::limit,
                               {{end.x - (across ? 0 : 4), end.y - (across ? 4 : 0)},
                                {end.x + (across ? 0 : 4), end.y + (across ? 4 : 0)}},
                               true});
}

void draw_promised(SheetPicture& picture, const SheetChart& chart, const PerformanceResult& result) {
  const auto& [sheet, finding] = result;
  const auto& grade = *agreed_grade(sheet, finding);
  const auto& t = grade.tolerance;
  const double flow = sheet.guarantee->promised.flow.value(), head = sheet.guarantee->promised.head.value();
  draw_bar(picture, chart.at(flow * (1 + t.flow_low), head), chart.at(flow * (1 + t.flow_high), head));
  draw_bar(picture, chart.at(flow, head * (1 + t.head_low)), chart.at(flow, head * (1 + t.head_high)));
  const PicturePoint top = chart.at(flow, head * (1 + t.head_high));
  picture.words.push_back({grade_text(sheet, grade), {top.x, top.y - 6}, Anchor::middle, Ink::limit});
}

void draw_efficiency(SheetPicture& picture, const ChartAxis& across, double top,
                     const PerformanceFinding& finding) {
  const PumpCurves& curves = finding.model.curves();
  const auto flows = flows_over(curves);
  std::vector<double> values;
  values.reserve(flows.size());
  double most = 0.1;
  for (const double flow : flows) {
    values.push_back(curves.efficiency_at(flow));
    most = std::max(most, values.back());
  }
  const SheetChart chart(
      across, {0, 1.15 * most, &unit_with_symbol("%", Kind::percent), {"efficiency", "rendimiento"}}, top,
      efficiency_height);
  chart.draw_axes(picture, true);
  draw_curve(picture, chart, Ink::found, flows, values);
  const std::vector<double> as_read(finding.model.sources().size());
  for (std::size_t i = 0; i < finding.points.size(); ++i)
    picture.circles.push_back(
        {Ink::found, chart.at(finding.model.rated_point(i, as_read).flow_m3_s, finding.points[i][3].value),
         dot});
}

Text note_of(const PerformanceResult& result) {
  Text note{
      "At the rated speed. Dots: as tested. Full: the curve, thin lines either side its 95 % doubt. Cross: "
      "what was "
      "promised with its tolerances; the curve has to cut one of its bars.",
      "A la velocidad nominal. Puntos: como se probó. Llena: la curva, líneas finas su duda del 95 %. Cruz: "
      "lo "
      "prometido con sus tolerancias; la curva tiene que cortar uno de sus brazos."};
  if (result.finding.remedy) {
    note.en += " Dotted: where the head would be met exactly.";
    note.es += " Punteada: donde la altura se cumpliría exactamente.";
  }
  return note;
}

}  // namespace

std::optional<SheetPicture> picture(const PerformanceResult& result) {
  const PerformanceFinding& finding = result.finding;
  const bool with_power = finding.model.curves().power.has_value();
  const Axes axes = axes_of(result);
  const SheetChart chart(axes.flow, axes.head, head_top, head_height);
  SheetPicture out;
  chart.draw_axes(out, !with_power);
  draw_head(out, chart, finding);
  draw_remedy(out, chart, finding, axes.flow);
  draw_points(out, chart, finding);
  draw_promised(out, chart, result);
  double bottom = chart.bottom();
  if (with_power) {
    const double top = bottom + between_charts;
    draw_efficiency(out, axes.flow, top, finding);
    bottom = top + efficiency_height;
  }
  out.height = bottom + SheetChart::room_below;
  out.title = {"Head over flow beside what was promised", "Altura por caudal junto a lo prometido"};
  out.note = note_of(result);
  return out;
}

}  // namespace pumpwright::job::performance

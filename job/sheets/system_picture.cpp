// Head over flow: what the pumps give, what the plant asks, and where the two meet.
#include <algorithm>

#include "job/sheet_chart.h"
#include "job/sheets/system_check.h"

namespace pumpwright::job::running {
namespace {

constexpr double top = 22;
constexpr double height = 150;
constexpr double dot = 3;
constexpr std::size_t curve_points = 41;

struct Curve {
  std::vector<double> flow, head;
};

// From no flow, or the first known one, to the pumps' last.
Curve of_pumps(const hydraulics::PumpGroup& group) {
  Curve out;
  const double low = group.lowest_m3_s(), high = group.highest_m3_s();
  for (std::size_t i = 0; i < curve_points; ++i) {
    const double flow = low + (high - low) * static_cast<double>(i) / (curve_points - 1);
    out.flow.push_back(flow);
    out.head.push_back(group.head_m(flow));
  }
  return out;
}

// Where the plant is known, as far as the pumps reach.
Curve of_plant(const hydraulics::Plant& plant, double last_m3_s) {
  Curve out;
  const double low = plant.measured ? plant.measured->lowest_m3_s() : 0;
  const double high = plant.measured ? std::min(last_m3_s, plant.measured->highest_m3_s()) : last_m3_s;
  for (std::size_t i = 0; i < curve_points; ++i) {
    const double flow = low + (high - low) * static_cast<double>(i) / (curve_points - 1);
    out.flow.push_back(flow);
    out.head.push_back(hydraulics::plant_head_m(plant, flow));
  }
  return out;
}

// What of the curve lies in the plotted field.
PictureStroke stroke_of(const SheetChart& chart, const Curve& curve, Ink ink, double head_high) {
  PictureStroke stroke{ink, {}, false};
  for (std::size_t i = 0; i < curve.flow.size() && curve.head[i] <= head_high; ++i)
    stroke.points.push_back(chart.at(curve.flow[i], curve.head[i]));
  return stroke;
}

void draw_wanted(SheetPicture& picture, const SheetChart& chart, const SystemResult& result,
                 const ChartAxis& head) {
  if (!result.sheet.wanted_flow) return;
  const double flow = result.sheet.wanted_flow->value();
  if (flow > result.finding.group->highest_m3_s()) return;
  picture.strokes.push_back({Ink::wanted, {chart.at(flow, head.low), chart.at(flow, head.high)}, false});
}

}  // namespace

std::optional<SheetPicture> picture(const SystemResult& result) {
  const auto& [sheet, finding] = result;
  const PumpUnits units = units_of(sheet);
  const Curve pumps = of_pumps(*finding.group), plant = of_plant(finding.plant, pumps.flow.back());
  const double most = *std::max_element(pumps.head.begin(), pumps.head.end());
  const double least = std::min(0.0, *std::min_element(plant.head.begin(), plant.head.end()));
  const ChartAxis across{0, pumps.flow.back() * 1.02, units.flow, {"flow", "caudal"}};
  const ChartAxis up{least, 1.1 * std::max(most, plant.head.front()), units.head, {"head", "altura"}};
  const SheetChart chart(across, up, top, height);
  SheetPicture out;
  chart.draw_axes(out, true);
  out.strokes.push_back(stroke_of(chart, pumps, Ink::found, up.high));
  out.strokes.push_back(stroke_of(chart, plant, Ink::part, up.high));
  draw_wanted(out, chart, result, up);
  if (finding.point.meeting == hydraulics::Meeting::found)
    out.circles.push_back({Ink::found, chart.at(finding.point.flow_m3_s, finding.point.head_m), dot});
  out.height = chart.bottom() + SheetChart::room_below;
  out.title = {"What the pumps give and what the plant asks",
               "Lo que dan las bombas y lo que pide la instalación"};
  out.note = {
      "Falling: the pumps, on this liquid. Rising: the plant. Dot: where they meet.",
      "La que baja: las bombas, con este líquido. La que sube: la instalación. Punto: donde se cortan."};
  if (sheet.wanted_flow) {
    out.note.en += " Dotted: the flow that is wanted.";
    out.note.es += " Punteada: el caudal deseado.";
  }
  return out;
}

}  // namespace pumpwright::job::running

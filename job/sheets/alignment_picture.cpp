// Two coupled machines from the side and from above: distances along the shafts to scale, what is off drawn
// larger by a stated factor, with the move of every pair of feet.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "job/sheets/alignment_check.h"
#include "job/sheets/alignment_units.h"

namespace pumpwright::job::aligning {
namespace {

using alignment::ShaftLine;

constexpr double edge = 14;
constexpr double room_off_axis = 26;
constexpr double panel_height = 140;
constexpr double axis_in_panel = 52;
constexpr double foot_drop = 40;

// From the side: up is up. From above: up is to the left as seen from where the sheet looks.
struct Panel {
  double top = 0;
  bool from_above = false;
};

struct Scale {
  const AlignmentResult& result;
  double from_m = 0;
  double units_per_m = 1;
  double magnification = 1;  // of what is off, beside units_per_m

  double x(Length at) const { return edge + (at.value() - from_m) * units_per_m; }
  double off(double m) const { return m * units_per_m * magnification; }
  double axis(const Panel& panel) const { return panel.top + axis_in_panel; }
};

double off_axis(const ShaftLine& line, const Panel& panel, Length from_coupling) {
  return panel.from_above ? -line.right_at(from_coupling).value() : line.up_at(from_coupling).value();
}

std::array<Length, 2> feet_of(const AlignmentSheet& sheet) {
  return {sheet.moved.front, sheet.moved.back};
}

PicturePoint on_line(const Scale& s, const Panel& panel, const ShaftLine& line, Length at) {
  return {s.x(at), s.axis(panel) - s.off(off_axis(line, panel, at - s.result.sheet.coupling))};
}

void draw_line(SheetPicture& picture, const Scale& s, const Panel& panel, const ShaftLine& line, Ink ink) {
  const auto [front, back] = feet_of(s.result.sheet);
  const Length end = back > front ? back : front;
  picture.strokes.push_back(
      {ink, {on_line(s, panel, line, s.result.sheet.coupling), on_line(s, panel, line, end)}, false});
}

Text move_text(const AlignmentSheet& sheet, const Panel& panel, const alignment::FootMove& move) {
  const double amount = panel.from_above ? move.push.value() : move.raise.value();
  const std::string size = AlignmentUnits(sheet).length(metres(std::fabs(amount)));
  if (panel.from_above)
    return amount < 0 ? Text{"left " + size, "izquierda " + size} : Text{"right " + size, "derecha " + size};
  return amount < 0 ? Text{"lower " + size, "bajar " + size} : Text{"raise " + size, "subir " + size};
}

// `line`: 0 or 1, so that the words of two feet that stand close do not run into each other.
void draw_foot(SheetPicture& picture, const Scale& s, const Panel& panel, Length at, const FootPlan& plan,
               int line) {
  const double x = s.x(at), y = s.axis(panel) + foot_drop;
  picture.strokes.push_back({Ink::part, {{x - 7, y + 8}, {x, y}, {x + 7, y + 8}}, true});
  const double amount = panel.from_above ? -plan.wanted.push.value() : plan.wanted.raise.value();
  const double way = amount < 0 ? 1 : -1;
  add_arrow(picture, Ink::wanted, {x, y - 12 - way * 8}, {x, y - 12 + way * 8});
  picture.words.push_back({move_text(s.result.sheet, panel, plan.wanted),
                           {x, y + 21 + 13 * line},
                           x > SheetPicture::width - 60 ? Anchor::end : Anchor::middle,
                           Ink::wanted});
}

void draw_panel(SheetPicture& picture, const Scale& s, const Panel& panel) {
  const auto& [sheet, finding] = s.result;
  const double axis = s.axis(panel), coupling = s.x(sheet.coupling);
  picture.words.push_back(
      {panel.from_above ? Text{"From above", "Desde arriba"} : Text{"From the side", "De lado"},
       {edge, panel.top + 12},
       Anchor::start,
       Ink::part});
  picture.strokes.push_back({Ink::part, {{edge, axis}, {coupling, axis}}, false});
  picture.strokes.push_back({Ink::guide, {{coupling, axis}, {SheetPicture::width - edge, axis}}, false});
  picture.strokes.push_back({Ink::part, {{coupling, axis - 14}, {coupling, axis + 14}}, false});
  draw_line(picture, s, panel, finding.warm, Ink::found);
  draw_line(picture, s, panel, finding.after, Ink::wanted);
  draw_foot(picture, s, panel, sheet.moved.front, finding.front, 0);
  draw_foot(picture, s, panel, sheet.moved.back, finding.back, 1);
}

double most_off(const AlignmentResult& result) {
  double most = 0;
  for (const bool from_above : {false, true})
    for (const Length& at : {result.sheet.coupling, result.sheet.moved.front, result.sheet.moved.back})
      most = std::max(most,
                      std::fabs(off_axis(result.finding.warm, {0, from_above}, at - result.sheet.coupling)));
  return most;
}

Scale scale_of(const AlignmentResult& result) {
  const AlignmentSheet& sheet = result.sheet;
  std::vector<double> places{sheet.coupling.value(), sheet.moved.front.value(), sheet.moved.back.value()};
  if (sheet.fixed) places.insert(places.end(), {sheet.fixed->front.value(), sheet.fixed->back.value()});
  const auto [least, most] = std::minmax_element(places.begin(), places.end());
  const double length = *most - *least;
  // Some of the fixed machine's shaft is seen even where its feet are not known.
  const double from = sheet.fixed ? *least : *least - 0.25 * length;
  Scale scale{result, from, (SheetPicture::width - 2 * edge - 24) / (*most - from), 1};
  scale.magnification = magnification_for(most_off(result) * scale.units_per_m, room_off_axis);
  return scale;
}

}  // namespace

std::optional<SheetPicture> picture(const AlignmentResult& result) {
  const Scale scale = scale_of(result);
  SheetPicture out;
  out.height = 2 * panel_height;
  draw_panel(out, scale, {0, false});
  draw_panel(out, scale, {panel_height, true});
  const std::string factor = fmt::format("{:g}", scale.magnification);
  out.title = {"The moved shaft against the one that stays, from the side and from above",
               "El eje móvil frente al fijo, de lado y desde arriba"};
  out.note = {
      "Along the shafts to scale; what is off is drawn " + factor +
          " times larger, warm. Full: as it stands. Dotted: after the moves. Left is up, from above.",
      "A lo largo de los ejes a escala; lo que está fuera, " + factor +
          " veces mayor, en caliente. Lleno: como está. Punteado: tras los movimientos. Desde arriba, la "
          "izquierda es arriba."};
  return out;
}

}  // namespace pumpwright::job::aligning

// The shaft to scale with its bearings, impeller and seal, and how it bends, drawn larger by a stated factor.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"
#include "job/sheets/rotor_check.h"

namespace pumpwright::job::shaft {
namespace {

constexpr double edge = 10;
constexpr double axis_y = 96;
constexpr double room_off_axis = 34;

struct Scale {
  double units_per_m = 1;
  double magnification = 1;

  double x(Length at) const { return edge + at.value() * units_per_m; }
  double across(Length size) const { return size.value() * units_per_m; }
  double off(Length size) const { return size.value() * units_per_m * magnification; }
};

Length length_of(const RotorSheet& sheet) {
  Length all{};
  for (const auto& step : sheet.pump.rotor.steps)
    all = all + step.length;
  return all;
}

Length diameter_at(const RotorSheet& sheet, Length at) {
  Length to{};
  for (const auto& step : sheet.pump.rotor.steps) {
    to = to + step.length;
    if (at <= to) return step.diameter;
  }
  return sheet.pump.rotor.steps.back().diameter;
}

void box(SheetPicture& picture, double from, double to, double half_height) {
  picture.strokes.push_back({Ink::part,
                             {{from, axis_y - half_height},
                              {to, axis_y - half_height},
                              {to, axis_y + half_height},
                              {from, axis_y + half_height}},
                             true});
}

void draw_parts(SheetPicture& picture, const Scale& s, const RotorSheet& sheet) {
  Length at{};
  for (const auto& step : sheet.pump.rotor.steps) {
    box(picture, s.x(at), s.x(at + step.length), s.across(step.diameter) / 2);
    at = at + step.length;
  }
  const auto& wheel = sheet.pump.pump;
  const double half = s.across(wheel.outlet_width) / 2, middle = s.x(sheet.pump.rotor.impeller.at);
  box(picture, std::max(0.0, middle - half), middle + half,
      std::min(s.across(wheel.outlet_diameter) / 2, axis_y - 16));
  for (const auto& support : sheet.pump.rotor.supports) {
    const double x = s.x(support.at), y = axis_y + s.across(diameter_at(sheet, support.at)) / 2;
    picture.strokes.push_back({Ink::part, {{x, y}, {x - 7, y + 11}, {x + 7, y + 11}}, true});
  }
}

void draw_words(SheetPicture& picture, const Scale& s, const RotorSheet& sheet) {
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string& name = sheet.bearing_names[i];
    picture.words.push_back(
        {{name, name}, {s.x(sheet.pump.rotor.supports[i].at), axis_y + 68}, Anchor::middle, Ink::part});
  }
  const double face = s.x(sheet.pump.seal_face);
  picture.strokes.push_back({Ink::guide, {{face, axis_y - 60}, {face, axis_y + 60}}, false});
  picture.words.push_back({{"faces", "caras"}, {face, axis_y - 66}, Anchor::middle, Ink::guide});
}

// Up where the expected thrust bends it, and the most all loads together may do.
void draw_bent(SheetPicture& picture, const Scale& s, const RotorResult& result) {
  PictureStroke expected{Ink::found, {}, false}, most{Ink::wanted, {}, false};
  for (const auto& point : result.finding.line) {
    expected.points.push_back({s.x(point.at), axis_y - s.off(point.thrust)});
    most.points.push_back({s.x(point.at), axis_y - s.off(point.most)});
  }
  picture.strokes.push_back(std::move(expected));
  picture.strokes.push_back(std::move(most));
  const double face = s.x(result.sheet.pump.seal_face);
  const double limit = axis_y - s.off(result.sheet.pump.limits.deflection);
  picture.strokes.push_back({Ink::limit, {{face - 14, limit}, {face + 14, limit}}, false});
}

double most_off(const RotorResult& result) {
  double most = result.sheet.pump.limits.deflection.value();
  for (const auto& point : result.finding.line)
    most = std::max({most, std::fabs(point.thrust.value()), std::fabs(point.most.value())});
  return most;
}

}  // namespace

std::optional<SheetPicture> picture(const RotorResult& result) {
  SheetPicture out;
  out.height = axis_y + 72;
  Scale scale{(SheetPicture::width - 2 * edge) / length_of(result.sheet).value(), 1};
  scale.magnification = magnification_for(most_off(result) * scale.units_per_m, room_off_axis);
  draw_parts(out, scale, result.sheet);
  out.strokes.push_back({Ink::guide, {{0, axis_y}, {SheetPicture::width, axis_y}}, false});
  draw_bent(out, scale, result);
  draw_words(out, scale, result.sheet);
  const std::string factor = fmt::format("{:g}", scale.magnification);
  out.title = {"The shaft and how it bends under its load", "El eje y cómo se dobla bajo su carga"};
  out.note = {
      "Shaft to scale; its bend is drawn " + factor +
          " times larger. Full: under the radial thrust expected. Dotted: the most that thrust, weight and "
          "unbalance may do together. Dashed: the limit at the faces.",
      "Eje a escala; la flecha, " + factor +
          " veces mayor. Llena: con el empuje radial esperado. Punteada: lo más que pueden hacer juntos "
          "empuje, "
          "peso y desequilibrio. A trazos: el límite en las caras."};
  return out;
}

}  // namespace pumpwright::job::shaft

// Every housing's overall velocity as a bar, beside the ends of the zones.
#include <algorithm>

#include "job/sheets/vibration_check.h"
#include "job/sheets/vibration_units.h"

namespace pumpwright::job::vibrating {
namespace {

constexpr double left = 14;
constexpr double right = 306;
constexpr double top = 24;
constexpr double row = 34;
constexpr double bar = 10;

struct Scale {
  double most_m_s = 1;
  double x(Velocity v) const { return left + (right - left) * v.value() / most_m_s; }
};

void draw_place(SheetPicture& picture, const Scale& scale, const VibrationSheet& sheet,
                const JudgedPlace& place, double y) {
  const std::string words = place.place + ": " + velocity_text(sheet, place.rms);
  picture.words.push_back({{words, words}, {left, y}, Anchor::start, Ink::part});
  const double end = scale.x(place.rms);
  picture.strokes.push_back(
      {Ink::found, {{left, y + 4}, {end, y + 4}, {end, y + 4 + bar}, {left, y + 4 + bar}}, true});
  const double from = scale.x(place.rms - place.u * 2.0), to = scale.x(place.rms + place.u * 2.0);
  picture.strokes.push_back({Ink::part, {{from, y + 4 + bar / 2}, {to, y + 4 + bar / 2}}, false});
}

void draw_zone_end(SheetPicture& picture, double x, const std::string& name, double bottom) {
  picture.strokes.push_back({Ink::limit, {{x, top - 8}, {x, bottom}}, false});
  picture.words.push_back({{name, name}, {x, top - 12}, Anchor::middle, Ink::limit});
}

Scale scale_of(const VibrationFinding& finding) {
  double most = finding.limits->c_to_d.value();
  for (const auto& place : finding.places)
    most = std::max(most, (place.rms + place.u * 2.0).value());
  return {most * 1.08};
}

}  // namespace

std::optional<SheetPicture> picture(const VibrationResult& result) {
  const auto& [sheet, finding] = result;
  if (!finding.limits) return std::nullopt;
  const Scale scale = scale_of(finding);
  SheetPicture out;
  double y = top + 12;
  for (const auto& place : finding.places) {
    draw_place(out, scale, sheet, place, y);
    y += row;
  }
  const double bottom = y - row + 4 + bar + 6;
  out.strokes.push_back({Ink::part, {{left, top - 8}, {left, bottom}}, false});
  draw_zone_end(out, scale.x(finding.limits->a_to_b), "A | B", bottom);
  draw_zone_end(out, scale.x(finding.limits->b_to_c), "B | C", bottom);
  draw_zone_end(out, scale.x(finding.limits->c_to_d), "C | D", bottom);
  out.height = bottom + 6;
  out.title = {"Overall velocity of every place beside the zones",
               "Velocidad global de cada lugar junto a las zonas"};
  out.note = {"Bars: r.m.s. velocity, with its 95 % doubt. Dashed: where zones A, B and C end.",
              "Barras: velocidad eficaz, con su duda del 95 %. A trazos: donde acaban las zonas A, B y C."};
  return out;
}

}  // namespace pumpwright::job::vibrating

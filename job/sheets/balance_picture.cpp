// The balance as seen along the shaft: what is left in each plane beside what is permitted, and what to add.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/quantity/format.h"
#include "job/sheets/balance_check.h"

namespace pumpwright::job::balance {
namespace {

constexpr double rotor_radius = 54;
constexpr double first_centre_y = 84;

PicturePoint round_at(PicturePoint centre, Angle place, double radius) {
  return {centre.x + radius * std::sin(place.value()), centre.y - radius * std::cos(place.value())};
}

struct Dial {
  const BalanceResult& result;
  PicturePoint centre;
  double units_per_kg_m = 0;
};

void draw_round(SheetPicture& picture, const Dial& dial, const std::string& name) {
  picture.circles.push_back({Ink::part, dial.centre, rotor_radius});
  for (const double deg : {0.0, 90.0, 180.0, 270.0}) {
    const Angle place = degrees(deg);
    picture.strokes.push_back(
        {Ink::guide,
         {round_at(dial.centre, place, rotor_radius - 4), round_at(dial.centre, place, rotor_radius)},
         false});
    const PicturePoint at = round_at(dial.centre, place, rotor_radius + 9);
    const std::string text = fmt::format("{:.0f}°", deg);
    picture.words.push_back({{text, text}, {at.x, at.y + 3}, Anchor::middle, Ink::guide});
  }
  picture.words.push_back(
      {{name, name}, {dial.centre.x, dial.centre.y + rotor_radius + 28}, Anchor::middle, Ink::part});
}

void draw_plane(SheetPicture& picture, const Dial& dial, std::size_t p) {
  const auto& [sheet, finding] = dial.result;
  draw_round(picture, dial, sheet.planes[p].name);
  for (const Angle& place : sheet.planes[p].places)
    picture.circles.push_back({Ink::guide, round_at(dial.centre, place, rotor_radius - 8), 2});
  if (!finding.at_bearings) {
    const double permitted = finding.permissible.value() / static_cast<double>(sheet.planes.size());
    picture.circles.push_back({Ink::limit, dial.centre, permitted * dial.units_per_kg_m});
  }
  const auto heavy = rotor::unbalance_of(finding.solution->remaining[p].value, sheet.runs.sense);
  add_arrow(picture, Ink::found, dial.centre,
            round_at(dial.centre, heavy.place, heavy.amount.value() * dial.units_per_kg_m));
  const auto& add = finding.corrections[p].add;
  add_arrow(picture, Ink::wanted, dial.centre,
            round_at(dial.centre, add.place, add.amount.value() * dial.units_per_kg_m));
}

double largest(const BalanceResult& result) {
  double most = 0;
  for (const auto& estimate : result.finding.solution->remaining)
    most = std::max(most, std::abs(estimate.value));
  if (!result.finding.at_bearings)
    most =
        std::max(most, result.finding.permissible.value() / static_cast<double>(result.sheet.planes.size()));
  return most;
}

}  // namespace

std::optional<SheetPicture> picture(const BalanceResult& result) {
  if (!result.finding.solution) return std::nullopt;
  const double most = largest(result);
  if (!(most > 0)) return std::nullopt;
  SheetPicture out;
  out.height = first_centre_y + rotor_radius + 36;
  const std::size_t planes = result.sheet.planes.size();
  for (std::size_t p = 0; p < planes; ++p) {
    const double share = (static_cast<double>(p) + 0.5) / static_cast<double>(planes);
    draw_plane(out, {result, {SheetPicture::width * share, first_centre_y}, (rotor_radius - 4) / most}, p);
  }
  const bool against = result.sheet.runs.sense.places == rotor::PlacesRise::against_rotation;
  out.words.push_back({against ? Text{"↺ rotation", "↺ giro"} : Text{"↻ rotation", "↻ giro"},
                       {4, 12},
                       Anchor::start,
                       Ink::guide});
  out.title = {"What is left in each plane, and what to add",
               "Lo que queda en cada plano y lo que hay que poner"};
  out.note = {
      "Arrows in proportion to the unbalance. Full: the heavy side as it is. Dotted: weight to add. Dashed "
      "circle: what is permitted. Small circles: places where weight may go.",
      "Flechas en proporción al desequilibrio. Llena: el lado pesado, como está. Punteada: peso por poner. "
      "Círculo a trazos: lo admisible. Círculos pequeños: lugares donde puede ir peso."};
  return out;
}

}  // namespace pumpwright::job::balance

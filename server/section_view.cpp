#include "server/section_view.h"

#include <cmath>

#include <nlohmann/json.hpp>

#include "job/check_words.h"
#include "job/section.h"
#include "report/labels.h"
#include "server/amount_json.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

std::string_view word_of(job::PartKind part) {
  using job::PartKind;
  switch (part) {
    case PartKind::motor:
      return "motor";
    case PartKind::bearing:
      return "bearing";
    case PartKind::shaft:
      return "shaft";
    case PartKind::key:
      return "key";
    case PartKind::sleeve:
      return "sleeve";
    case PartKind::bracket:
      return "bracket";
    case PartKind::gasket:
      return "gasket";
    case PartKind::seat:
      return "seat";
    case PartKind::seat_cup:
      return "seat-cup";
    case PartKind::seal_ring:
      return "seal-ring";
    case PartKind::elastomer:
      return "elastomer";
    case PartKind::retainer:
      return "retainer";
    case PartKind::spring:
      return "spring";
    case PartKind::impeller:
      return "impeller";
    case PartKind::vane:
      return "vane";
    case PartKind::fastener:
      return "fastener";
    case PartKind::wear_ring:
      return "wear-ring";
    case PartKind::casing:
      return "casing";
  }
  return "casing";
}

// A micrometre is finer than any screen.
double drawn(double metres) {
  return std::round(metres * 1e6) / 1e6;
}

json window_json(const job::SectionWindow& w) {
  return {drawn(w.x_min_m), drawn(w.x_max_m), drawn(w.r_min_m), drawn(w.r_max_m)};
}

json shape_json(const job::SectionShape& shape) {
  json points = json::array();
  for (const auto& p : shape.outline)
    points.push_back({drawn(p.x_m), drawn(p.r_m)});
  return {{"part", word_of(shape.part)},
          {"turning", job::word_in(job::turning_words, job::turning_of(shape.part))},
          {"assumed", shape.assumed},
          {"points", points}};
}

}  // namespace

json section_view(const job::MakeUp& make_up) {
  const job::Section section = job::section_of(make_up);
  json shapes = json::array(), places = json::array();
  for (const auto& shape : section.shapes)
    shapes.push_back(shape_json(shape));
  for (const auto& place : section.places)
    places.push_back({{"place", place.place},
                      {"x_m", drawn(place.at.x_m)},
                      {"r_m", drawn(place.at.r_m)},
                      {"title", text_json(report::place_title(place.place))}});
  return {{"whole", window_json(section.whole)},
          {"seal", window_json(section.seal)},
          {"shapes", shapes},
          {"places", places}};
}

}  // namespace pumpwright::server

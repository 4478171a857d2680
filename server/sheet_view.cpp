#include "server/sheet_view.h"

#include <cmath>

#include <nlohmann/json.hpp>

#include "server/amount_json.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

json point_json(const job::PicturePoint& at) {
  const auto rounded = [](double units) { return std::round(units * 100) / 100; };
  return {rounded(at.x), rounded(at.y)};
}

}  // namespace

nlohmann::json picture_json(const job::SheetPicture& picture) {
  json strokes = json::array(), circles = json::array(), words = json::array();
  for (const auto& stroke : picture.strokes) {
    json points = json::array();
    for (const auto& point : stroke.points)
      points.push_back(point_json(point));
    strokes.push_back({{"ink", job::word_of(stroke.ink)}, {"points", points}, {"closed", stroke.closed}});
  }
  for (const auto& circle : picture.circles)
    circles.push_back({{"ink", job::word_of(circle.ink)},
                       {"centre", point_json(circle.centre)},
                       {"radius", std::round(circle.radius * 100) / 100}});
  for (const auto& word : picture.words)
    words.push_back({{"text", text_json(word.text)},
                     {"at", point_json(word.at)},
                     {"anchor", job::word_of(word.anchor)},
                     {"ink", job::word_of(word.ink)}});
  return {{"width", job::SheetPicture::width},
          {"height", picture.height},
          {"strokes", strokes},
          {"circles", circles},
          {"words", words},
          {"title", text_json(picture.title)},
          {"note", text_json(picture.note)}};
}

nlohmann::json lines_json(const std::vector<job::SheetLine>& lines) {
  json out = json::array();
  for (const auto& line : lines)
    out.push_back({{"name", text_json(line.name)}, {"value", text_json(line.value)}});
  return out;
}

}  // namespace pumpwright::server

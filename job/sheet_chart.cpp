#include "job/sheet_chart.h"

#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace pumpwright::job {
namespace {

constexpr double least_ticks = 2.5;  // and so at most 6

struct Tick {
  double si;
  std::string text;
};

std::vector<Tick> ticks_of(const ChartAxis& axis) {
  const double low = from_si(axis.low, *axis.unit), high = from_si(axis.high, *axis.unit);
  const double step = round_step((high - low) / least_ticks);
  std::vector<Tick> out;
  const auto first = std::lround(std::ceil(low / step - 1e-9));
  for (long n = first; static_cast<double>(n) * step <= high + 1e-9 * step; ++n) {
    const double at = static_cast<double>(n) * step;
    out.push_back({to_si(at, *axis.unit), fmt::format("{:g}", at)});
  }
  return out;
}

std::string titled(const std::string& title, const Unit& unit) {
  return unit.symbol.empty() ? title : fmt::format("{}, {}", title, unit.symbol);
}

Text title_of(const ChartAxis& axis) {
  return {titled(axis.title.en, *axis.unit), titled(axis.title.es, *axis.unit)};
}

}  // namespace

SheetChart::SheetChart(const ChartAxis& across, const ChartAxis& up, double top, double height)
    : across_(across), up_(up), top_(top), height_(height) {}

double SheetChart::x(double si) const {
  return left + (right - left) * (si - across_.low) / (across_.high - across_.low);
}

double SheetChart::y(double si) const {
  return top_ + height_ * (up_.high - si) / (up_.high - up_.low);
}

PicturePoint SheetChart::at(double x_si, double y_si) const {
  return {x(x_si), y(y_si)};
}

void SheetChart::draw_up(SheetPicture& picture) const {
  for (const auto& tick : ticks_of(up_)) {
    const double at = y(tick.si);
    picture.strokes.push_back({Ink::guide, {{left, at}, {right, at}}, false});
    picture.words.push_back({{tick.text, tick.text}, {left - 4, at + 3.5}, Anchor::end, Ink::guide});
  }
  picture.words.push_back({title_of(up_), {4, top_ - 6}, Anchor::start, Ink::guide});
}

void SheetChart::draw_axes(SheetPicture& picture, bool with_words_across) const {
  draw_up(picture);
  picture.strokes.push_back({Ink::part, {{left, top_}, {left, bottom()}, {right, bottom()}}, false});
  if (!with_words_across) return;
  for (const auto& tick : ticks_of(across_)) {
    const double at = x(tick.si);
    picture.strokes.push_back({Ink::part, {{at, bottom()}, {at, bottom() + 3}}, false});
    picture.words.push_back({{tick.text, tick.text}, {at, bottom() + 14}, Anchor::middle, Ink::guide});
  }
  picture.words.push_back({title_of(across_), {right, bottom() + 27}, Anchor::end, Ink::guide});
}

}  // namespace pumpwright::job

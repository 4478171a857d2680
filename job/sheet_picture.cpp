#include "job/sheet_picture.h"

#include <algorithm>
#include <cmath>

namespace pumpwright::job {

void add_arrow(SheetPicture& picture, Ink ink, PicturePoint from, PicturePoint to) {
  picture.strokes.push_back({ink, {from, to}, false});
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length < 1) return;
  const double head = std::min(6.0, length / 2);
  const double along_x = (to.x - from.x) / length * head, along_y = (to.y - from.y) / length * head;
  const PicturePoint left{to.x - along_x + 0.5 * along_y, to.y - along_y - 0.5 * along_x};
  const PicturePoint right{to.x - along_x - 0.5 * along_y, to.y - along_y + 0.5 * along_x};
  picture.strokes.push_back({ink, {left, to, right}, true});
}

double magnification_for(double size, double room) {
  if (!(size > 0) || !std::isfinite(size)) return 1;
  const double exact = room / size;
  const double decade = std::pow(10, std::floor(std::log10(exact)));
  for (const double step : {5.0, 2.0})
    if (step * decade <= exact) return step * decade;
  return decade;
}

std::string word_of(Ink ink) {
  switch (ink) {
    case Ink::part:
      return "part";
    case Ink::guide:
      return "guide";
    case Ink::limit:
      return "limit";
    case Ink::found:
      return "found";
    case Ink::wanted:
      return "wanted";
  }
  return {};
}

std::string word_of(Anchor anchor) {
  switch (anchor) {
    case Anchor::start:
      return "start";
    case Anchor::middle:
      return "middle";
    case Anchor::end:
      return "end";
  }
  return {};
}

}  // namespace pumpwright::job

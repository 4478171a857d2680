#include "job/sheet_picture.h"

#include <algorithm>
#include <cmath>

#include "job/check_words.h"

namespace pumpwright::job {
namespace {

constexpr Words<Ink, 5> ink_words{{{"part", Ink::part},
                                   {"guide", Ink::guide},
                                   {"limit", Ink::limit},
                                   {"found", Ink::found},
                                   {"wanted", Ink::wanted}}};
constexpr Words<Anchor, 3> anchor_words{
    {{"start", Anchor::start}, {"middle", Anchor::middle}, {"end", Anchor::end}}};

}  // namespace

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

double round_step(double most) {
  const double decade = std::pow(10, std::floor(std::log10(most)));
  for (const double step : {5.0, 2.0})
    if (step * decade <= most) return step * decade;
  return decade;
}

double magnification_for(double size, double room) {
  if (!(size > 0) || !std::isfinite(size)) return 1;
  return round_step(room / size);
}

std::string_view word_of(Ink ink) {
  return word_in(ink_words, ink);
}

std::string_view word_of(Anchor anchor) {
  return word_in(anchor_words, anchor);
}

}  // namespace pumpwright::job

// A picture of what a bench test came to, as strokes and words that page and record draw alike: to scale
// where its note says so, and what is off drawn larger by a stated factor.
#pragma once

#include <string_view>
#include <vector>

#include "job/text.h"

namespace pumpwright::job {

// What a stroke stands for; no meaning hangs on its colour alone.
enum class Ink {
  part,    // outline of what is there
  guide,   // axes, ticks and scales
  limit,   // what is permitted; dashed
  found,   // what was read or computed
  wanted,  // what is to be done, or how it will then be; dotted
};

// Across the picture from the left and down from the top, in units of which `width` go into it.
struct PicturePoint {
  double x = 0;
  double y = 0;
};

// A closed one is drawn full whatever its ink.
struct PictureStroke {
  Ink ink = Ink::part;
  std::vector<PicturePoint> points;
  bool closed = false;
};

struct PictureCircle {
  Ink ink = Ink::part;
  PicturePoint centre;
  double radius = 0;
};

enum class Anchor { start, middle, end };

struct PictureWord {
  Text text;
  PicturePoint at;  // on the line the letters stand on
  Anchor anchor = Anchor::start;
  Ink ink = Ink::part;
};

struct SheetPicture {
  static constexpr double width = 320;
  double height = 0;
  std::vector<PictureStroke> strokes;
  std::vector<PictureCircle> circles;
  std::vector<PictureWord> words;
  Text title;  // what it shows, for who can not see it
  Text note;   // scale and magnification, and what each kind of stroke is
};

// An arrow of two strokes from one place to another.
void add_arrow(SheetPicture& picture, Ink ink, PicturePoint from, PicturePoint to);

// Largest of 1, 2 or 5 times a power of ten up to `most`, over 0: a step for ticks.
double round_step(double most);

// As round_step, so that `size` times it stays within `room`; 1 for a size of nothing.
double magnification_for(double size, double room);

// Words of the wire: "part", "guide", …; "start", "middle", "end".
std::string_view word_of(Ink ink);
std::string_view word_of(Anchor anchor);

}  // namespace pumpwright::job

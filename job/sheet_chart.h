// One quantity over another in a sheet's picture: axes with ticks at round numbers, and places on them.
#pragma once

#include <string>

#include "engine/quantity/unit.h"
#include "job/sheet_picture.h"

namespace pumpwright::job {

// From `low` to `high`, low < high, SI; ticked in `unit`.
struct ChartAxis {
  double low = 0;
  double high = 1;
  const Unit* unit = nullptr;
  Text title;
};

class SheetChart {
 public:
  // `top`, `height`: of the plotted field in the picture, without its words.
  SheetChart(const ChartAxis& across, const ChartAxis& up, double top, double height);

  PicturePoint at(double x_si, double y_si) const;
  double x(double si) const;
  double y(double si) const;
  double bottom() const { return top_ + height_; }

  // Axes, ticks and titles; the words across are left out where another chart below has the same axis.
  void draw_axes(SheetPicture& picture, bool with_words_across) const;

  static constexpr double left = 40;
  static constexpr double right = 308;
  static constexpr double room_below = 30;  // for the words across

 private:
  void draw_up(SheetPicture& picture) const;

  ChartAxis across_, up_;
  double top_, height_;
};

}  // namespace pumpwright::job

#include "report/verdict_mark.h"

#include <array>

#include "report/palette.h"

namespace pumpwright::report {
namespace {

void draw_pass(Canvas& canvas, Point c, double h) {
  canvas.circle(c, h, {pass_colour, std::nullopt});
  const std::array<Point, 3> tick{Point{c.x - 0.46 * h, c.y + 0.02 * h},
                                  Point{c.x - 0.12 * h, c.y + 0.38 * h},
                                  Point{c.x + 0.5 * h, c.y - 0.36 * h}};
  canvas.open_path(tick, {white, 0.28 * h, {}});
}

void draw_fail(Canvas& canvas, Point c, double h) {
  const double a = 0.92 * h;
  canvas.rectangle({c.x - a, c.y - a, 2 * a, 2 * a}, {fail_colour, std::nullopt});
  const double b = 0.48 * h;
  const Pen pen{white, 0.28 * h, {}};
  canvas.line({c.x - b, c.y - b}, {c.x + b, c.y + b}, pen);
  canvas.line({c.x - b, c.y + b}, {c.x + b, c.y - b}, pen);
}

void draw_unproven(Canvas& canvas, Point c, double h) {
  const double a = 1.14 * h;
  const std::array<Point, 4> diamond{Point{c.x, c.y - a}, Point{c.x + a, c.y}, Point{c.x, c.y + a},
                                     Point{c.x - a, c.y}};
  const std::array<Point, 3> lower{Point{c.x + a, c.y}, Point{c.x, c.y + a}, Point{c.x - a, c.y}};
  canvas.polygon(diamond, {white, std::nullopt});
  canvas.polygon(lower, {unproven_colour, std::nullopt});
  canvas.polygon(diamond, {std::nullopt, Pen{unproven_colour, 0.26 * h, {}}});
}

void draw_not_taken(Canvas& canvas, Point c, double h) {
  canvas.circle(c, 0.86 * h, {white, Pen{untaken_colour, 0.26 * h, {}}});
}

}  // namespace

Colour colour_of(job::Verdict verdict) {
  switch (verdict) {
    case job::Verdict::pass:
      return pass_colour;
    case job::Verdict::fail:
      return fail_colour;
    case job::Verdict::unproven:
      return unproven_colour;
    case job::Verdict::not_taken:
      break;
  }
  return untaken_colour;
}

void draw_verdict_mark(Canvas& canvas, Point centre, double size, job::Verdict verdict,
                       bool deviation_accepted) {
  const double h = size / 2;
  switch (verdict) {
    case job::Verdict::pass:
      draw_pass(canvas, centre, h);
      break;
    case job::Verdict::fail:
      draw_fail(canvas, centre, h);
      break;
    case job::Verdict::unproven:
      draw_unproven(canvas, centre, h);
      break;
    case job::Verdict::not_taken:
      draw_not_taken(canvas, centre, h);
      break;
  }
  if (deviation_accepted)
    canvas.line({centre.x - h, centre.y + 1.45 * h}, {centre.x + h, centre.y + 1.45 * h}, {ink, 0.3 * h, {}});
}

}  // namespace pumpwright::report

#include "report/sheet_drawing.h"

#include "report/palette.h"

namespace pumpwright::report {
namespace {

constexpr double note_gap = 4;
constexpr double letter_size = 10;  // in the picture's units

Pen pen_of(job::Ink of) {
  switch (of) {
    case job::Ink::part:
      return {ink, 0.9, {}};
    case job::Ink::guide:
      return {soft_ink, 0.5, {}};
    case job::Ink::limit:
      return {limit_line, 1.1, {4, 2.5}};
    case job::Ink::found:
      return {fail_colour, 1.4, {}};
    case job::Ink::wanted:
      return {fit_line, 1.3, {1.2, 1.8}};
  }
  return {ink, 0.9, {}};
}

Pen full(Pen pen) {
  pen.dash.clear();
  return pen;
}

Type type_of(const job::PictureWord& word, double points_per_unit) {
  const Align align = word.anchor == job::Anchor::start    ? Align::left
                      : word.anchor == job::Anchor::middle ? Align::centre
                                                           : Align::right;
  return {letter_size * points_per_unit, Weight::regular, word.ink == job::Ink::guide ? soft_ink : ink,
          align};
}

Type note_type() {
  return {7.4, Weight::regular, soft_ink, Align::left};
}

// From the picture's units to the page.
struct Placed {
  Point corner;
  double points_per_unit = 1;

  Point operator()(const job::PicturePoint& at) const {
    return {corner.x + at.x * points_per_unit, corner.y + at.y * points_per_unit};
  }
};

void draw_stroke(Canvas& canvas, const Placed& placed, const job::PictureStroke& stroke) {
  std::vector<Point> points;
  points.reserve(stroke.points.size());
  for (const auto& at : stroke.points)
    points.push_back(placed(at));
  if (stroke.closed)
    canvas.polygon(points, {std::nullopt, full(pen_of(stroke.ink))});
  else
    canvas.open_path(points, pen_of(stroke.ink));
}

}  // namespace

double sheet_picture_height(Canvas& canvas, double width, const job::SheetPicture& picture,
                            job::Language language) {
  return picture.height * width / job::SheetPicture::width + note_gap +
         canvas.measure(picture.note.in(language), note_type(), width).height;
}

void draw_sheet_picture(Canvas& canvas, Point at, double width, const job::SheetPicture& picture,
                        job::Language language) {
  const Placed placed{at, width / job::SheetPicture::width};
  for (const auto& circle : picture.circles)
    canvas.circle(placed(circle.centre), circle.radius * placed.points_per_unit,
                  {std::nullopt, pen_of(circle.ink)});
  for (const auto& stroke : picture.strokes)
    draw_stroke(canvas, placed, stroke);
  for (const auto& word : picture.words) {
    const Type type = type_of(word, placed.points_per_unit);
    const Point on_line = placed(word.at);
    canvas.text({on_line.x, on_line.y - type.size}, word.text.in(language), type);
  }
  canvas.text({at.x, at.y + picture.height * placed.points_per_unit + note_gap}, picture.note.in(language),
              note_type(), width);
}

}  // namespace pumpwright::report

#include "report/true_drawing.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "job/true_picture.h"
#include "job/true_running.h"
#include "job/true_wording.h"
#include "report/labels.h"
#include "report/palette.h"
#include "report/record_text.h"

namespace pumpwright::report {
namespace {

constexpr double picture_share = 0.46;
constexpr double gutter = 18;
constexpr double picture_height = 120;
constexpr double row_gap = 5;

Type small() {
  return {7.4, Weight::regular, soft_ink, Align::left};
}
Type plain() {
  return {8.6, Weight::regular, ink, Align::left};
}
Type strong() {
  return {8.6, Weight::bold, ink, Align::left};
}

template <class Chain>
TrueDrawing drawing_of(const job::JobTrueRunning& in, const job::TrueQuestion<Chain>& q,
                       const job::MakeUp& make_up, job::Language language) {
  const job::TrueFinding<Chain> f = job::finding_of<Chain>(in);
  const job::TrueWording words(in.unit != nullptr ? *in.unit : unit_with_symbol("mm", Kind::length), language,
                               in.titles);
  const auto picture = job::picture_of(q, f, make_up);
  TrueDrawing out;
  out.found = words.found(q, f);
  if (f.out_of_limits) out.advised = job::as_sentence(words.doing(f.remedies[f.recommended], q)) + ".";
  for (const auto& s : q.stations) {
    std::string reading = words.length(s.vector.size() * 2.0);
    if (s.limit)
      reading = fill(fill(text_of(Label::true_reading, language), reading), words.length(s.limit->value));
    if (true_running::squared_distance(s.vector.si(), s.covariance) > true_running::region_95)
      reading += ", " + words.place(s.vector.direction());
    out.sweeps.push_back({words.station(s.id), reading});
  }
  for (const auto& swept : f.after)
    out.sweeps.push_back({words.station(swept.predicted.station), words.outcome(swept)});
  for (const auto& p : picture.parts)
    out.parts.push_back(
        {p.from.value(), p.to.value(), p.radius.value(), p.off_from.value(), p.off_to.value()});
  out.magnification = picture.magnification;
  out.up = words.place(picture.up);
  out.caption = fill(text_of(Label::true_caption, language), fmt::format("{:g}", picture.magnification));
  return out;
}

// Where a place along and across the axis lies on the page.
struct Scale {
  Point axis;  // at the mounting face
  double points_per_m = 1;

  Point operator()(double along, double across) const {
    return {axis.x + along * points_per_m, axis.y - across * points_per_m};
  }
};

Scale scale_of(const Box& box, const TrueDrawing& d) {
  double length = 0, reach = 0;
  for (const auto& p : d.parts) {
    length = std::max(length, p.to);
    reach =
        std::max(reach, p.radius + d.magnification * std::max(std::fabs(p.off_from), std::fabs(p.off_to)));
  }
  return {{box.x, box.y + box.height / 2}, std::min(box.width / length, box.height / 2 / reach)};
}

void draw_part(Canvas& canvas, const Scale& scale, const TrueDrawing& d, const TrueDrawing::Part& p) {
  const double near = d.magnification * p.off_from, far = d.magnification * p.off_to;
  const Point corners[] = {scale(p.from, near + p.radius), scale(p.to, far + p.radius),
                           scale(p.to, far - p.radius), scale(p.from, near - p.radius)};
  canvas.polygon(corners, {d.standing ? standing_fill : rotating_fill,
                           Pen{d.standing ? standing_line : rotating_line, 0.9, {}}});
}

void draw_picture(Canvas& canvas, const Box& box, const TrueDrawing& d) {
  const Scale scale = scale_of(box, d);
  for (auto p = d.parts.rbegin(); p != d.parts.rend(); ++p)
    draw_part(canvas, scale, d, *p);
  canvas.line({box.x - 6, scale.axis.y}, {box.right(), scale.axis.y}, {ink, 0.6, {8, 2, 1.5, 2}});
  for (const auto& p : d.parts)
    canvas.line(scale(p.from, d.magnification * p.off_from), scale(p.to, d.magnification * p.off_to),
                {fail_colour, 1.3, {}});
}

// What stands beside the picture; returns its height. Without drawing when `put` is false.
double beside(Canvas& canvas, Point at, double width, const TrueDrawing& d, bool put) {
  double y = at.y;
  const auto line = [&](const std::string& text, const Type& type) {
    if (text.empty()) return;
    y += (put ? canvas.text({at.x, y}, text, type, width) : canvas.measure(text, type, width)).height +
         row_gap;
  };
  line(d.title, strong());
  line(d.found, plain());
  line(d.advised, plain());
  for (const auto& sweep : d.sweeps)
    line(sweep.title + ": " + sweep.reading, small());
  return y - at.y;
}

double side_width(double width) {
  return width * (1 - picture_share) - gutter;
}

}  // namespace

std::vector<TrueDrawing> true_drawings(const job::Snapshot& snapshot, const job::JobState& state,
                                       const job::Judgement& judgement, job::Language language) {
  const job::JobTrueRunning in = job::true_running_of(snapshot, state, judgement);
  std::vector<TrueDrawing> out;
  const auto add = [&](const auto& question, const char* id, Label title, bool standing) {
    if (question.stations.empty()) return;
    TrueDrawing drawing = drawing_of(in, question, snapshot.make_up, language);
    if (drawing.parts.empty()) return;
    drawing.id = id;
    drawing.title = text_of(title, language);
    drawing.standing = standing;
    out.push_back(std::move(drawing));
  };
  add(in.rotating, "turning", Label::true_turning, false);
  add(in.standing, "standing", Label::true_standing, true);
  return out;
}

double true_height(Canvas& canvas, double width, const TrueDrawing& drawing) {
  const double picture = picture_height + 26;
  return std::max(picture, beside(canvas, {0, 0}, side_width(width), drawing, false));
}

void draw_true(Canvas& canvas, Point at, double width, const TrueDrawing& drawing) {
  const double room = width * picture_share;
  canvas.text(at, "↑ " + drawing.up, small());
  draw_picture(canvas, {at.x + 6, at.y + 12, room - 6, picture_height}, drawing);
  canvas.text({at.x, at.y + picture_height + 15}, drawing.caption, small(), room);
  beside(canvas, {at.x + room + gutter, at.y}, side_width(width), drawing, true);
}

}  // namespace pumpwright::report
